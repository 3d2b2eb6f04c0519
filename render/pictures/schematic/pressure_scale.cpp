#include "render/pictures/schematic/pressure_scale.h"

#include <array>
#include <cmath>
#include <cstddef>

#include <fmt/format.h>

#include "model/quantity/quantity.h"

namespace leat::render {
namespace {

// The palest and middle classes only (2 to 8): black text must stay readable on every fill.
constexpr int white_class = 5;
constexpr double zero_band_Pa = 100.0;  // as for the state `suction` of a tee

/// Where one step ends and the next begins, away from zero, in the unit shown.
struct StepLimits {
  std::array<double, 2> suction;
  std::array<double, 2> pressure;
  double unit_Pa;
  const char* unit;
};

const StepLimits& limits_for(model::UnitSystem units) {
  static const StepLimits metric{{10.0, 40.0}, {100.0, 300.0}, 1000.0, "kPa"};
  static const StepLimits us{{1.5, 6.0}, {15.0, 45.0}, pascals_per_psi, "psi"};
  return units == model::UnitSystem::Us ? us : metric;
}

std::string colour_of_class(int index) {
  return fmt::format("/brbg9/{}", index);
}

int steps_from_zero(double size, const std::array<double, 2>& limits) {
  return size < limits[0] ? 1 : (size < limits[1] ? 2 : 3);
}

}  // namespace

std::vector<PressureStep> pressure_steps(model::UnitSystem units) {
  const StepLimits& limits = limits_for(units);
  const std::array<double, 2>& low = limits.suction;
  const std::array<double, 2>& high = limits.pressure;
  return {{colour_of_class(2), fmt::format("suction over {} {}", low[1], limits.unit)},
          {colour_of_class(3), fmt::format("suction {} to {}", low[0], low[1])},
          {colour_of_class(4), fmt::format("suction under {}", low[0])},
          {no_pressure_colour(), "no pressure"},
          {colour_of_class(6), fmt::format("pressure under {}", high[0])},
          {colour_of_class(7), fmt::format("pressure {} to {}", high[0], high[1])},
          {colour_of_class(8), fmt::format("pressure over {} {}", high[1], limits.unit)}};
}

std::string pressure_colour(double pressure_Pa, model::UnitSystem units) {
  if (!std::isfinite(pressure_Pa) || std::abs(pressure_Pa) <= zero_band_Pa) {
    return no_pressure_colour();
  }
  const StepLimits& limits = limits_for(units);
  const double size = std::abs(pressure_Pa) / limits.unit_Pa;
  const bool is_suction = pressure_Pa < 0.0;
  const int steps = steps_from_zero(size, is_suction ? limits.suction : limits.pressure);
  return colour_of_class(is_suction ? white_class - steps : white_class + steps);
}

std::string no_pressure_colour() {
  return "white";
}

}  // namespace leat::render
