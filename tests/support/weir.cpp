#include "tests/support/weir.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

#include "model/quantity/quantity.h"

namespace leat::hydrology {
namespace {

// Formulas of the form Q ft3/s = coefficient x (H ft)^exponent.
double flow_from_feet(double head_m, double coefficient, double exponent) {
  constexpr double cubic_metres_per_cubic_foot =
      metres_per_foot * metres_per_foot * metres_per_foot;
  if (!(head_m > 0.0)) {
    return 0.0;
  }
  return coefficient * std::pow(head_m / metres_per_foot, exponent) * cubic_metres_per_cubic_foot;
}

}  // namespace

double right_angle_notch_m3_s(double head_m) {
  return flow_from_feet(head_m, 2.49, 2.48);
}

double sixty_degree_notch_m3_s(double head_m) {
  return flow_from_feet(head_m, 1.443, 2.5);
}

double forty_five_degree_notch_m3_s(double head_m) {
  return flow_from_feet(head_m, 1.035, 2.5);
}

double notch_m3_s(double head_m, double angle_degrees) {
  if (!(angle_degrees >= 25.0 && angle_degrees <= 100.0)) {
    throw std::invalid_argument("a notch is 25 to 100 degrees wide");
  }
  if (!(head_m > 0.0)) {
    return 0.0;
  }
  const double a = angle_degrees;
  const double discharge_coefficient = 0.607165052 + a * (-8.74466963e-4 + a * 6.10393334e-6);
  const double added_head_ft =
      0.0144902648 + a * (-3.3955535e-4 + a * (3.29819003e-6 + a * -1.06215442e-8));
  return 8.0 / 15.0 * discharge_coefficient * std::tan(a * std::numbers::pi / 360.0) *
         std::sqrt(2.0 * gravity_m_s2) * std::pow(head_m + added_head_ft * metres_per_foot, 2.5);
}

}  // namespace leat::hydrology
