#include "solver/hydraulics/pipe_rating.h"

#include <algorithm>
#include <cmath>

namespace leat::hydraulics {

Pressure rating_by_inside(Pressure hydrostatic_design_stress, double sidr) {
  return hydrostatic_design_stress * (2.0 / (sidr + 1.0));
}

Pressure rating_by_outside(Pressure hydrostatic_design_stress, double dr) {
  return hydrostatic_design_stress * (2.0 / (dr - 1.0));
}

std::optional<double> polyethylene_derating(Temperature temperature) {
  const double celsius = in_celsius(temperature);
  if (!(celsius <= 40.0)) {
    return std::nullopt;
  }
  // Two steps of the same 0.13 make one straight line; colder pipe is not rated higher.
  return 1.0 - 0.013 * std::max(celsius - 20.0, 0.0);
}

int break_pressure_tanks(double fall_m, double limit_m) {
  constexpr double most = 1e6;  // a limit of nothing asks for no end of them
  return static_cast<int>(std::clamp(std::ceil(fall_m / limit_m) - 1.0, 0.0, most));
}

}  // namespace leat::hydraulics
