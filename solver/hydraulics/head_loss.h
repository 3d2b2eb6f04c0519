// Room: pure functions of water, air and pipe, each with its source.
//
// Everything a stretch of pipe costs: friction, fittings, entrance and exit.
#pragma once

#include <vector>

#include "solver/hydraulics/friction.h"

namespace leat::hydraulics {

/// A foot valve that must be lifted by the water. Once it runs it costs K max(v, vmin)^2/2g: of
/// that the part K vmin^2/2g is an opening head, which the caller gives to the one-way edge (a step
/// at zero flow is no law a Newton method can walk over); what is left, K (max(v, vmin)^2 -
/// vmin^2)/2g, is part of the stretch's loss.
struct LiftingLoss {
  double loss_coefficient = 0.0;
  double lifting_flow_m3_s = 0.0;
};

/// Losses of one stretch on its own velocity head. K may differ by direction (entrance and exit
/// change places when the water turns).
struct StretchLaw {
  FrictionLaw friction;
  double bore_m = 0.0;
  double forward_k = 0.0;
  double backward_k = 0.0;
  std::vector<LiftingLoss> lifting;  // act on forward flow only
};

/// The least slope of any stretch [s/m2]: fixed-factor and K-only laws are flat at zero flow, and
/// a flat law stops Newton's method.
inline constexpr double least_slope_s_m2 = 1e-3;

/// Loss from start to end of the stretch at a flow of either sign, with its slope, which is never
/// below `least_slope_s_m2`.
/// A law flatter than that at zero flow is steepened there: h = q sqrt((h0/q)^2 + d^2), where h0 is
/// the law itself, s0 its slope at zero flow, d^2 = least_slope^2 - s0^2. As every law grows at
/// least as fast as the flow, the slope is then at least least_slope everywhere, value and slope
/// agree, and the value differs from h0 by less than (least_slope q)^2 / (2 h0): of a metre of
/// loss at 1 L/s that is 5e-13 m.
[[nodiscard]] LossAndSlope stretch_loss(const StretchLaw& law, double flow_m3_s);

/// The opening head K vmin^2/2g [m] of a foot valve (see LiftingLoss).
[[nodiscard]] double lifting_opening_head_m(double bore_m, const LiftingLoss& lifting);

/// Velocity head v^2/2g [m] of a flow in a round bore.
[[nodiscard]] double velocity_head_m(double bore_m, double flow_m3_s);

}  // namespace leat::hydraulics
