#include "solver/hydraulics/head_loss.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "model/quantity/quantity.h"

namespace leat::hydraulics {
namespace {

// v^2/2g = velocity_head_factor q^2.
double velocity_head_factor(double bore_m) {
  constexpr double pi = std::numbers::pi;
  const double bore_squared = bore_m * bore_m;
  return 8.0 / (pi * pi * gravity_m_s2 * bore_squared * bore_squared);
}

// The part of a lifted valve's loss above its opening head. Flat until the valve floats.
LossAndSlope loss_beyond_lifting(double head_factor, const LiftingLoss& lifting, double flow_m3_s) {
  if (flow_m3_s <= lifting.lifting_flow_m3_s) {
    return {};
  }
  const double resistance = lifting.loss_coefficient * head_factor;
  const double flows_apart = flow_m3_s - lifting.lifting_flow_m3_s;
  return {.loss_m = resistance * flows_apart * (flow_m3_s + lifting.lifting_flow_m3_s),
          .slope_s_m2 = 2.0 * resistance * flow_m3_s};
}

LossAndSlope unsteepened_loss(const StretchLaw& law, double flow_m3_s) {
  LossAndSlope sum = friction_loss(law.friction, flow_m3_s);
  const double head_factor = velocity_head_factor(law.bore_m);
  const double k = flow_m3_s < 0.0 ? law.backward_k : law.forward_k;
  const double fittings_secant_s_m2 = k * head_factor * std::abs(flow_m3_s);
  sum.loss_m += fittings_secant_s_m2 * flow_m3_s;
  sum.slope_s_m2 += 2.0 * fittings_secant_s_m2;
  if (flow_m3_s > 0.0) {
    for (const LiftingLoss& lifting : law.lifting) {
      const LossAndSlope lifted = loss_beyond_lifting(head_factor, lifting, flow_m3_s);
      sum.loss_m += lifted.loss_m;
      sum.slope_s_m2 += lifted.slope_s_m2;
    }
  }
  return sum;
}

}  // namespace

LossAndSlope stretch_loss(const StretchLaw& law, double flow_m3_s) {
  const LossAndSlope bare = unsteepened_loss(law, flow_m3_s);
  // Only Darcy-Weisbach has a slope at zero flow; the other laws hold 0 here.
  const double slope_at_rest = law.friction.laminar_slope_s_m2;
  if (slope_at_rest >= least_slope_s_m2) {
    return bare;
  }
  const double secant_s_m2 = flow_m3_s == 0.0 ? slope_at_rest : bare.loss_m / flow_m3_s;
  const double lacking_squared =
      least_slope_s_m2 * least_slope_s_m2 - slope_at_rest * slope_at_rest;
  const double steepened_s_m2 = std::sqrt(secant_s_m2 * secant_s_m2 + lacking_squared);
  return {.loss_m = steepened_s_m2 * flow_m3_s,
          .slope_s_m2 = (secant_s_m2 * bare.slope_s_m2 + lacking_squared) / steepened_s_m2};
}

double lifting_opening_head_m(double bore_m, const LiftingLoss& lifting) {
  return lifting.loss_coefficient * velocity_head_m(bore_m, lifting.lifting_flow_m3_s);
}

double velocity_head_m(double bore_m, double flow_m3_s) {
  return velocity_head_factor(bore_m) * flow_m3_s * flow_m3_s;
}

}  // namespace leat::hydraulics
