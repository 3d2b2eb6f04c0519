// Where air gathers in a farm's pipes, whether the water that runs sweeps it out, and how much head
// the pockets can hold back when a line is filled.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/flow/line_course.h"
#include "solver/hydraulics/air_sweep.h"

namespace leat::solver {

/// A point that air rises to and cannot leave: the pipe falls on both sides (or comes up to it and
/// falls on), no vent stands there, and no way climbs on from it to open water.
struct HighPoint {
  std::optional<std::size_t> tee;  // the place, where a tee is the high point
  std::size_t pipe = 0;            // else the pipe ...
  double at_m = 0.0;               // ... and the distance, as the file writes it
  double elevation_m = 0.0;
  std::optional<double> pressure_Pa;  // gauge, while it runs; none where the answer has none
};

/// A reach of one running pipe that falls in the direction of flow below a high point.
struct FallingLeg {
  HighPoint high;
  std::size_t pipe = 0;
  double from_m = 0.0;  // distances as the file writes them, in the direction of flow
  double to_m = 0.0;
  double from_elevation_m = 0.0;
  double to_elevation_m = 0.0;
  double angle_rad = 0.0;  // of its steepest part, below the horizontal: there the pocket stands
  double velocity_m_s = 0.0;
  hydraulics::AirSweep sweep;
  hydraulics::AirVerdict verdict = hydraulics::AirVerdict::Swept;
};

/// Every falling leg behind a high point, pipe by pipe in the file's order. Still pipes and pipes
/// that run part full have none: water standing or running under air sweeps nothing.
[[nodiscard]] std::vector<FallingLeg> falling_legs(const model::Farm& farm,
                                                   const SteadyAnswer& answer);

/// What pockets can hold back when a line is filled from its upper end with no high point open: the
/// water runs over each high point, traps the air of the leg behind it, and must push a column up
/// the next rise. Their heights add (statics; May, Allen, Nelson 2018 measured close to it).
struct AirLock {
  int pockets = 0;
  double lifted_m = 0.0;  // sum of the heights of the air-filled falling legs
  double fall_m = 0.0;    // from the source's level to the end's

  /// Whether the fall there is pushes the water past every pocket.
  [[nodiscard]] bool starts() const { return fall_m > lifted_m; }
};
[[nodiscard]] AirLock air_lock_of(const model::Farm& farm,
                                  const SteadyAnswer& answer,
                                  const LineCourse& line);

}  // namespace leat::solver
