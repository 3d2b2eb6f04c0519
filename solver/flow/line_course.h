// A line from open water to the first end downstream, over as many pipes as it has: what is primed,
// and what an air lock holds back, as one course.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/network/pipes_by_place.h"

namespace leat::solver {

/// A point of a line. `at_m` is the distance along its pipe as the file writes it, `along_m` the
/// length of pipe from the start of the whole line.
struct LinePoint {
  std::size_t pipe = 0;
  double at_m = 0.0;
  double along_m = 0.0;
  double elevation_m = 0.0;
};

/// A pipe that meets the line at a tee and is no part of it. One that meets it twice stands twice.
struct LineBranch {
  std::size_t tee = 0;  // place
  std::size_t pipe = 0;
};

/// The line. Where two of its pipes meet at a tee the point stands twice, once for each pipe.
struct LineCourse {
  std::size_t from = 0;  // place; open water, unless the file has the line start at a tee
  std::size_t to = 0;
  std::vector<std::size_t> pipes;  // from the water down, as the file writes their direction
  std::vector<LinePoint> points;
  std::vector<LineBranch> branches;
  double length_m = 0.0;
};

/// Finds lines, followed as the file writes its pipes' directions. At a tee with several ways the
/// one with the largest flow is taken, the first in the file where they are equal; the others are
/// branches. Farm and answer must outlive it.
class LineFinder {
 public:
  LineFinder(const model::Farm& farm, const SteadyAnswer& answer);

  /// The line that holds a pipe.
  [[nodiscard]] LineCourse through(std::size_t pipe) const;

 private:
  enum class End { From, To };
  [[nodiscard]] std::optional<std::size_t> main_pipe(std::size_t tee,
                                                     End end,
                                                     const std::vector<bool>& taken) const;
  [[nodiscard]] std::vector<std::size_t> pipes_through(std::size_t pipe,
                                                       std::vector<bool>& taken) const;
  [[nodiscard]] bool drives_ram(std::size_t pipe) const;

  const model::Farm& farm_;
  const SteadyAnswer& answer_;
  PipesByPlace pipes_of_;
};

/// The line that holds a pipe, for who needs one only.
[[nodiscard]] LineCourse line_through(const model::Farm& farm,
                                      const SteadyAnswer& answer,
                                      std::size_t pipe);

/// Level of the water the line starts from and of what it ends in or falls out at [m]: surfaces
/// where there are any (a tank's or pond's, if it stands above the pipe's end), else the pipe's
/// end.
[[nodiscard]] double line_source_level_m(const model::Farm& farm,
                                         const SteadyAnswer& answer,
                                         const LineCourse& line);
[[nodiscard]] double line_end_level_m(const model::Farm& farm,
                                      const SteadyAnswer& answer,
                                      const LineCourse& line);

}  // namespace leat::solver
