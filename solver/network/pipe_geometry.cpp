#include "solver/network/pipe_geometry.h"

#include <algorithm>
#include <cmath>

namespace leat::solver {

namespace {

/// A bend flatter than this is rounding of the survey's figures, not a summit.
constexpr double least_bend = 1e-9;

}  // namespace

CoursePoint PipeCourse::at(double at_m) const {
  if (at_m <= points.front().at_m) {
    return points.front();
  }
  for (std::size_t i = 1; i < points.size(); ++i) {
    const CoursePoint& before = points[i - 1];
    const CoursePoint& after = points[i];
    if (at_m <= after.at_m) {
      const double span = after.at_m - before.at_m;
      const double share = span > 0.0 ? (at_m - before.at_m) / span : 1.0;
      return {at_m,
              before.along_m + share * (after.along_m - before.along_m),
              before.elevation_m + share * (after.elevation_m - before.elevation_m)};
    }
  }
  return points.back();
}

std::vector<std::size_t> PipeCourse::summits() const {
  std::vector<std::size_t> found;
  for (std::size_t i = 1; i + 1 < points.size(); ++i) {
    const double run_before = points[i].at_m - points[i - 1].at_m;
    const double run_after = points[i + 1].at_m - points[i].at_m;
    const double rise_before = points[i].elevation_m - points[i - 1].elevation_m;
    const double rise_after = points[i + 1].elevation_m - points[i].elevation_m;
    // slope after < slope before, written so that upright legs need no division.
    const double turn = run_before * rise_after - run_after * rise_before;
    const double size = std::hypot(run_before, rise_before) * std::hypot(run_after, rise_after);
    const bool up_and_down_again =
        run_before == 0.0 && run_after == 0.0 && rise_before > 0.0 && rise_after < 0.0;
    if (turn < -least_bend * size || up_and_down_again) {
      found.push_back(i);
    }
  }
  return found;
}

PipeCourse course_of(const model::Farm& farm,
                     const model::Pipe& pipe,
                     std::optional<model::Month> month) {
  PipeCourse course;
  course.length_m = in_metres(pipe.length);
  if (pipe.path.empty()) {
    course.points = {
        {0.0, 0.0, in_metres(model::from_end_level(farm, pipe, month))},
        {course.length_m, course.length_m, in_metres(model::to_end_level(farm, pipe, month))}};
    return course;
  }
  double along_m = 0.0;
  for (std::size_t i = 0; i < pipe.path.size(); ++i) {
    const model::PathPoint& point = pipe.path[i];
    if (i > 0) {
      along_m += std::hypot(in_metres(point.distance - pipe.path[i - 1].distance),
                            in_metres(point.elevation - pipe.path[i - 1].elevation));
    }
    course.points.push_back({in_metres(point.distance), along_m, in_metres(point.elevation)});
  }
  // The pipe may be longer than its surveyed path (slack, bends): the surplus lies evenly.
  const double stretch = along_m > 0.0 ? course.length_m / along_m : 1.0;
  for (CoursePoint& point : course.points) {
    point.along_m *= stretch;
  }
  return course;
}

double distance_of(const model::Placement& place, const PipeCourse& course) {
  switch (place.where) {
    case model::Placement::Where::Spread:
    case model::Placement::Where::Start:
      return course.points.front().at_m;
    case model::Placement::Where::End:
      return course.points.back().at_m;
    case model::Placement::Where::AtDistance:
      return std::clamp(
          in_metres(place.distance), course.points.front().at_m, course.points.back().at_m);
  }
  return course.points.front().at_m;
}

}  // namespace leat::solver
