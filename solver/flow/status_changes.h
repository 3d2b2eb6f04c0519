// What one steady answer can bring about: a siphon that draws air and breaks, a tee that draws air
// through a still branch. Each is found on a solved network; the farm is then solved again.
#pragma once

#include <string>
#include <vector>

#include "solver/flow/flow_state.h"

namespace leat::solver {

/// A line that breaks: a spring drawn below its intake, with a running high point above that.
struct BrokenLine {
  std::size_t spring = 0;  // place
  std::size_t pipe = 0;    // the pipe leaving the spring, shut from now on
  std::size_t high_pipe = 0;
  double high_at_m = 0.0;  // of the high point on `high_pipe` (its end, where it is a tee)
  double high_elevation_m = 0.0;
  double intake_m = 0.0;
};

/// A tee below whose level the head stands while a still branch ends open.
struct DrawingTee {
  std::size_t tee = 0;       // place
  std::size_t open_end = 0;  // place at the end of the still branch
  double head_m = 0.0;
};

/// Lines that break in this state and are not shut yet.
[[nodiscard]] std::vector<BrokenLine> lines_that_break(const FlowState& state);

/// Tees that draw air in this state and are not open yet.
[[nodiscard]] std::vector<DrawingTee> tees_that_draw_air(const FlowState& state);

}  // namespace leat::solver
