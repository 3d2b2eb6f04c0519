#include "solver/hydraulics/friction.h"

#include <cmath>
#include <numbers>

#include "model/quantity/quantity.h"

namespace leat::hydraulics {
namespace {

constexpr double laminar_end_reynolds = 2000.0;
constexpr double turbulent_start_reynolds = 4000.0;
static_assert(turbulent_start_reynolds == 2.0 * laminar_end_reynolds,
              "the bridge measures its length with a logarithm to base 2");

// Hazen-Williams in SI, exponents as in the reference tables (A2).
constexpr double hazen_williams_factor = 10.67;
constexpr double hazen_williams_flow_exponent = 1.852;
constexpr double hazen_williams_bore_exponent = 4.8704;

// Colebrook and White with x = 1/sqrt(f): x = -2 log10(e/3.7 + 2.51 x/Re). Put u = x ln(10)/2:
//   u + ln(a + u) = ln(Re) + b,  a = e Re ln(10) / (2 * 3.7 * 2.51),  b = -ln(2 * 2.51 / ln(10)),
// which is nearly straight in u, and
//   d ln f / d ln Re = -2 / (1 + a + u).
struct ColebrookRoot {
  double u = 0.0;
  double a_plus_u = 0.0;
};

constexpr double half_ln10 = std::numbers::ln10 / 2.0;
constexpr double roughness_factor = half_ln10 / (3.7 * 2.51);
constexpr double reynolds_constant = -0.7793974884556819;  // ln(ln(10)/2 / 2.51)

// One step of fourth order, with the correction in the form of Clamond, "Efficient resolution of
// the Colebrook equation", Ind. Eng. Chem. Res. 48 (2009) 3665 (from memory).
double improved(double u, double a, double right_side) {
  const double sum = a + u;
  const double error = (std::log(sum) + u - right_side) / (1.0 + sum);
  return u - (1.0 + sum + 0.5 * error) * error * sum / (1.0 + sum + error * (1.0 + error / 3.0));
}

// Two steps from right_side - 0.2 leave nothing but rounding (tested over the whole range).
ColebrookRoot colebrook_root(double reynolds, double relative_roughness) {
  const double a = roughness_factor * relative_roughness * reynolds;
  const double right_side = std::log(reynolds) + reynolds_constant;
  const double u = improved(improved(right_side - 0.2, a, right_side), a, right_side);
  return {.u = u, .a_plus_u = a + u};
}

double friction_factor(const ColebrookRoot& root) {
  const double root_of_factor = half_ln10 / root.u;
  return root_of_factor * root_of_factor;
}

double turbulent_log_slope(const ColebrookRoot& root) {  // d ln h / d ln q
  return 2.0 * root.a_plus_u / (1.0 + root.a_plus_u);
}

// ln(h / h at Re 2000) = t (linear + t (square + t cube)) with t = log2(Re / 2000), which meets
// the laminar law at t = 0 and Colebrook's at t = 1 in value and slope.
void set_bridge(FrictionLaw& law) {
  const ColebrookRoot end = colebrook_root(turbulent_start_reynolds, law.relative_roughness);
  const double flow_ratio = turbulent_start_reynolds / laminar_end_reynolds;
  const double laminar_factor = 64.0 / laminar_end_reynolds;
  const double rise = std::log(friction_factor(end) / laminar_factor * flow_ratio * flow_ratio);
  const double start_slope = std::numbers::ln2;  // laminar: h goes as q
  const double end_slope = std::numbers::ln2 * turbulent_log_slope(end);
  law.bridge_linear = start_slope;
  law.bridge_square = 3.0 * rise - 2.0 * start_slope - end_slope;
  law.bridge_cube = start_slope + end_slope - 2.0 * rise;
}

LossAndSlope bridge_loss(const FrictionLaw& law, double reynolds, double flow_m3_s) {
  const double t = std::log2(reynolds / laminar_end_reynolds);
  const double log_rise = t * (law.bridge_linear + t * (law.bridge_square + t * law.bridge_cube));
  const double log_rise_slope =
      law.bridge_linear + t * (2.0 * law.bridge_square + t * 3.0 * law.bridge_cube);
  const double start_loss_m = law.laminar_slope_s_m2 * laminar_end_reynolds / law.reynolds_per_flow;
  const double loss_m = start_loss_m * std::exp(log_rise);
  return {.loss_m = std::copysign(loss_m, flow_m3_s),
          .slope_s_m2 = loss_m / std::abs(flow_m3_s) * log_rise_slope / std::numbers::ln2};
}

LossAndSlope darcy_weisbach_loss(const FrictionLaw& law, double flow_m3_s) {
  const double reynolds = law.reynolds_per_flow * std::abs(flow_m3_s);
  if (reynolds <= laminar_end_reynolds) {
    return {.loss_m = law.laminar_slope_s_m2 * flow_m3_s, .slope_s_m2 = law.laminar_slope_s_m2};
  }
  if (reynolds < turbulent_start_reynolds) {
    return bridge_loss(law, reynolds, flow_m3_s);
  }
  const ColebrookRoot root = colebrook_root(reynolds, law.relative_roughness);
  const double secant_s_m2 = friction_factor(root) * law.turbulent_scale * std::abs(flow_m3_s);
  return {.loss_m = secant_s_m2 * flow_m3_s, .slope_s_m2 = secant_s_m2 * turbulent_log_slope(root)};
}

// f L/D v^2/2g = f turbulent_scale q^2.
double turbulent_scale_of(double bore_m, double length_m) {
  constexpr double pi = std::numbers::pi;
  return 8.0 * length_m / (pi * pi * gravity_m_s2 * std::pow(bore_m, 5.0));
}

}  // namespace

double colebrook_friction_factor(double reynolds, double relative_roughness) {
  return friction_factor(colebrook_root(reynolds, relative_roughness));
}

FrictionLaw darcy_weisbach(double bore_m,
                           double length_m,
                           double roughness_m,
                           double viscosity_m2_s) {
  constexpr double pi = std::numbers::pi;
  FrictionLaw law;
  law.kind = FrictionLaw::Kind::DarcyWeisbach;
  law.bore_m = bore_m;
  law.length_m = length_m;
  law.viscosity_m2_s = viscosity_m2_s;
  law.relative_roughness = roughness_m / bore_m;
  law.laminar_slope_s_m2 =
      128.0 * viscosity_m2_s * length_m / (pi * gravity_m_s2 * std::pow(bore_m, 4.0));
  law.turbulent_scale = turbulent_scale_of(bore_m, length_m);
  law.reynolds_per_flow = 4.0 / (pi * bore_m * viscosity_m2_s);
  set_bridge(law);
  return law;
}

FrictionLaw fixed_factor(double bore_m, double length_m, double friction_factor) {
  FrictionLaw law;
  law.kind = FrictionLaw::Kind::FixedFactor;
  law.bore_m = bore_m;
  law.length_m = length_m;
  law.resistance = friction_factor * turbulent_scale_of(bore_m, length_m);
  return law;
}

FrictionLaw hazen_williams(double bore_m, double length_m, double c) {
  FrictionLaw law;
  law.kind = FrictionLaw::Kind::HazenWilliams;
  law.bore_m = bore_m;
  law.length_m = length_m;
  law.resistance =
      hazen_williams_factor * length_m /
      (std::pow(c, hazen_williams_flow_exponent) * std::pow(bore_m, hazen_williams_bore_exponent));
  return law;
}

LossAndSlope friction_loss(const FrictionLaw& law, double flow_m3_s) {
  switch (law.kind) {
    case FrictionLaw::Kind::DarcyWeisbach:
      return darcy_weisbach_loss(law, flow_m3_s);
    case FrictionLaw::Kind::FixedFactor: {
      const double secant_s_m2 = law.resistance * std::abs(flow_m3_s);
      return {.loss_m = secant_s_m2 * flow_m3_s, .slope_s_m2 = 2.0 * secant_s_m2};
    }
    case FrictionLaw::Kind::HazenWilliams: {
      const double secant_s_m2 =
          law.resistance * std::pow(std::abs(flow_m3_s), hazen_williams_flow_exponent - 1.0);
      return {.loss_m = secant_s_m2 * flow_m3_s,
              .slope_s_m2 = hazen_williams_flow_exponent * secant_s_m2};
    }
  }
  return {};  // no other kind exists
}

}  // namespace leat::hydraulics
