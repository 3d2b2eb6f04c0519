// The course of one pipe: where it lies, where it turns downward, how far along a thing sits.
#pragma once

#include <vector>

#include "model/farm/farm.h"

namespace leat::solver {

/// A point of a pipe's course. `at_m` is the distance as the file writes it (horizontal along a
/// path; along the pipe where there is no path); `along_m` is the length of pipe up to it.
struct CoursePoint {
  double at_m = 0.0;
  double along_m = 0.0;
  double elevation_m = 0.0;
};

/// The course from the `from` end to the `to` end, at least two points.
struct PipeCourse {
  std::vector<CoursePoint> points;
  double length_m = 0.0;

  /// Length of pipe and elevation at a written distance, held within the pipe's ends.
  [[nodiscard]] CoursePoint at(double at_m) const;
  /// Indexes of inner points where the path turns downward: slope after less than slope before.
  [[nodiscard]] std::vector<std::size_t> summits() const;
};

/// The course of a pipe; its ends' levels are taken for `month` where they vary.
[[nodiscard]] PipeCourse course_of(const model::Farm& farm,
                                   const model::Pipe& pipe,
                                   std::optional<model::Month> month);

/// Where a placed thing sits, as a written distance; `Spread` is read as the start.
[[nodiscard]] double distance_of(const model::Placement& place, const PipeCourse& course);

}  // namespace leat::solver
