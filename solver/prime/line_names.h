// What the steps of a plan name: things as the file writes them.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "model/farm/farm.h"
#include "solver/prime/prime_course.h"

namespace leat::solver::priming {

/// A high point of a line, its summit among them.
struct HighPoint {
  std::string pipe;
  double at_m = 0.0;  // distance along that pipe as the file writes it
  double elevation_m = 0.0;
  std::optional<std::string> tee;  // the place, where it is a tee on the summit

  /// The thing of the file one goes to.
  [[nodiscard]] const std::string& where() const { return tee ? *tee : pipe; }
};

/// A pipe that meets the line at a tee.
struct Branch {
  std::string pipe;
  std::string tee;
};

/// The line's own.
struct LineNames {
  std::string source;  // the water it starts from
  std::string end;     // the place it ends at
  std::string first_pipe;
  std::string last_pipe;
  HighPoint summit;
};

[[nodiscard]] LineNames names_of(const model::Farm& farm, const PrimeCourse& course);
/// `point` is an index into the line's points.
[[nodiscard]] HighPoint high_point(const model::Farm& farm,
                                   const PrimeCourse& course,
                                   std::size_t point);
[[nodiscard]] Branch named(const model::Farm& farm, const LineBranch& branch);

}  // namespace leat::solver::priming
