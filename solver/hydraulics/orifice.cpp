#include "solver/hydraulics/orifice.h"

#include <cmath>
#include <numbers>

#include "model/quantity/quantity.h"

namespace leat::hydraulics {

OrificeLaw orifice(double bore_m, double discharge_coefficient) {
  const double effective_area_m2 = discharge_coefficient * std::numbers::pi / 4.0 * bore_m * bore_m;
  return {.resistance_s2_m5 = 1.0 / (2.0 * gravity_m_s2 * effective_area_m2 * effective_area_m2)};
}

OrificeLaw orifice_passing(double flow_m3_s, double pressure_Pa) {
  constexpr double valve_makers_density_kg_m3 = 1000.0;
  const double head_m = pressure_Pa / (valve_makers_density_kg_m3 * gravity_m_s2);
  return {.resistance_s2_m5 = head_m / (flow_m3_s * flow_m3_s)};
}

LossAndSlope orifice_loss(const OrificeLaw& law, double flow_m3_s) {
  const double secant_s_m2 = law.resistance_s2_m5 * std::abs(flow_m3_s);
  return {.loss_m = secant_s_m2 * flow_m3_s, .slope_s_m2 = 2.0 * secant_s_m2};
}

double orifice_flow(const OrificeLaw& law, double head_m) {
  return head_m > 0.0 ? std::sqrt(head_m / law.resistance_s2_m5) : 0.0;
}

}  // namespace leat::hydraulics
