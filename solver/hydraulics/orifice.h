// Water through a hole: float valve seats and open ends with an opening of their own.
#pragma once

#include "solver/hydraulics/friction.h"

namespace leat::hydraulics {

/// Head in front of a sharp orifice or a valve's seat that passes a flow into air:
/// h = (q / (Cd A))^2 / 2g, odd in the flow; the energy head, with no exit loss taken beside it.
struct OrificeLaw {
  double resistance_s2_m5 = 0.0;  // h = resistance q|q|
};

/// The law of a round hole of the given bore, discharge coefficient in (0, 1].
[[nodiscard]] OrificeLaw orifice(double bore_m, double discharge_coefficient);
/// The law of a valve said to pass `flow` at `pressure` in front of it (water of 1000 kg/m3, as
/// valve makers state it).
[[nodiscard]] OrificeLaw orifice_passing(double flow_m3_s, double pressure_Pa);

/// Head in front of the orifice at a flow of either sign, with its slope. Flat at zero flow: the
/// caller adds it to the stretch that leads there, whose slope is never below `least_slope_s_m2`.
[[nodiscard]] LossAndSlope orifice_loss(const OrificeLaw& law, double flow_m3_s);

/// Flow [m3/s] through the orifice under a head [m]; none under a head of 0 or less.
[[nodiscard]] double orifice_flow(const OrificeLaw& law, double head_m);

}  // namespace leat::hydraulics
