// One pipe cut into stretches: a stretch runs between two points where something other than loss
// happens to the water (a summit, a vent, a regulator, a shut valve).
#pragma once

#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/hydraulics/head_loss.h"
#include "solver/hydraulics/water.h"
#include "solver/network/pipe_geometry.h"

namespace leat::solver {

/// A loss at one point of a stretch, on the pipe's velocity head.
struct PlacedLoss {
  double at_m = 0.0;
  double forward_k = 0.0;
  double backward_k = 0.0;
  double least_velocity_head_m = 0.0;  // of a foot valve: it costs K times at least this
  double opening_head_m = 0.0;         // of a spring check
};

/// A length of pipe with one flow and nothing but losses on the way.
struct Stretch {
  CoursePoint start;
  CoursePoint end;
  hydraulics::StretchLaw law;  // everything below together
  hydraulics::FrictionLaw friction;
  double spread_k = 0.0;           // fittings spread over the length
  std::vector<PlacedLoss> placed;  // in order of distance
  bool one_way = false;
  std::optional<double> one_way_at_m;  // where the first one-way fitting stands
  double opening_head_m = 0.0;
};

/// What stands between one stretch and the next.
struct Break {
  enum class Kind { Summit, Vent, Regulator, ShutValve };
  Kind kind = Kind::Summit;
  CoursePoint point;
  bool is_summit = false;            // a vent may stand on a summit
  std::optional<double> vent_top_m;  // a vent with a top spills over it
  double held_head_m = 0.0;          // of a regulator: elevation and set pressure as a head
};

/// Stretches and breaks in turn: stretch 0, break 0, stretch 1 ...
struct PipeStretches {
  PipeCourse course;
  std::vector<Stretch> stretches;  // one more than breaks
  std::vector<Break> breaks;
};

/// Whether a shut valve stands in the pipe.
[[nodiscard]] bool has_shut_valve(const PipeStretches& cut);

/// Whether anything in the pipe lets water run from `from` to `to` only.
[[nodiscard]] bool is_one_way(const PipeStretches& cut);

/// Losses at the pipe's two ends, which depend on what the pipe opens into.
struct EndLosses {
  double from_forward_k = 0.0;
  double from_backward_k = 0.0;
  double to_forward_k = 0.0;
  double to_backward_k = 0.0;
};

/// K where water enters a pipe from open water, and where it leaves into open water or air.
inline constexpr double entrance_k = 0.5;
inline constexpr double exit_k = 1.0;

/// Cuts a pipe. `ends` are the losses at its ends (already resolved by the caller).
[[nodiscard]] PipeStretches cut_pipe(const model::Farm& farm,
                                     const model::Pipe& pipe,
                                     std::optional<model::Month> month,
                                     const hydraulics::Water& water,
                                     const EndLosses& ends);

/// Sum of the K that forward water meets between the pipe's ends, entrance and exit left out.
[[nodiscard]] double summed_fitting_k(const model::Pipe& pipe);

}  // namespace leat::solver
