// Friction along a round pipe: head loss and its exact slope by flow.
#pragma once

namespace leat::hydraulics {

/// A head loss and its derivative by flow, computed together so that they cannot drift apart.
struct LossAndSlope {
  double loss_m = 0.0;      // positive for positive flow
  double slope_s_m2 = 0.0;  // d loss / d flow, never below 0
};

/// Darcy friction factor of fully turbulent-to-smooth flow, Colebrook and White 1939, with 3.7 and
/// 2.51, solved to rounding (within 1e-14 of the root). Reynolds number 2000 .. 1e9, relative
/// roughness 0 .. 0.1.
/// Source: Colebrook, J. Inst. Civil Engineers 11 (1939) 133 (citation from memory).
[[nodiscard]] double colebrook_friction_factor(double reynolds, double relative_roughness);

/// How one length of pipe rubs. Made by one of the functions below, read by `friction_loss`.
struct FrictionLaw {
  enum class Kind { DarcyWeisbach, FixedFactor, HazenWilliams };
  Kind kind = Kind::DarcyWeisbach;
  double bore_m = 0.0;
  double length_m = 0.0;
  double viscosity_m2_s = 0.0;
  double relative_roughness = 0.0;
  double laminar_slope_s_m2 = 0.0;  // h = laminar_slope q below Re 2000
  double resistance = 0.0;          // h = resistance q|q|^(n-1), fixed factor and Hazen-Williams
  double turbulent_scale = 0.0;     // h = f turbulent_scale q|q|, Darcy-Weisbach
  double reynolds_per_flow = 0.0;   // Re = reynolds_per_flow |q|
  // The bridge between Re 2000 and 4000: ln(h / h at Re 2000) = t (linear + t (square + t cube)),
  // t = log2(Re / 2000), a cubic that matches value and slope at both ends.
  double bridge_linear = 0.0;
  double bridge_square = 0.0;
  double bridge_cube = 0.0;
};

/// Darcy-Weisbach: 64/Re to Re 2000, Colebrook-White from Re 4000, the bridge between. Bore > 0,
/// length >= 0, viscosity > 0, roughness 0 .. 0.1 bores.
[[nodiscard]] FrictionLaw darcy_weisbach(double bore_m,
                                         double length_m,
                                         double roughness_m,
                                         double viscosity_m2_s);
/// A fixed Darcy friction factor at every flow (textbook cases).
[[nodiscard]] FrictionLaw fixed_factor(double bore_m, double length_m, double friction_factor);
/// Hazen-Williams, SI form h = 10.67 L q^1.852 / (C^1.852 D^4.8704) (handbook comparison).
[[nodiscard]] FrictionLaw hazen_williams(double bore_m, double length_m, double c);

/// Friction loss over the law's length at a flow of either sign (odd in the flow), with its slope.
/// The slope is never below loss / flow: the loss grows at least as fast as the flow.
[[nodiscard]] LossAndSlope friction_loss(const FrictionLaw& law, double flow_m3_s);

}  // namespace leat::hydraulics
