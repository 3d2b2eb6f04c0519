#include "solver/hydraulics/air_pressure.h"

#include <algorithm>
#include <cmath>

namespace leat::hydraulics {
namespace {

// US Standard Atmosphere 1976 (same figures as ISO 2533), sea level and the lowest layer.
constexpr double sea_level_pressure_Pa = 101325.0;
constexpr double sea_level_temperature_K = 288.15;
constexpr double lapse_rate_K_m = 0.0065;
constexpr double molar_mass_kg_kmol = 28.9644;
constexpr double gas_constant_J_kmol_K = 8314.32;  // the value of the 1976 standard, not today's
constexpr double earth_radius_m = 6356766.0;
constexpr double lowest_altitude_m = -5000.0;
constexpr double highest_altitude_m = 11000.0;

constexpr double exponent =
    gravity_m_s2 * molar_mass_kg_kmol / (gas_constant_J_kmol_K * lapse_rate_K_m);

}  // namespace

Pressure air_pressure_at(Length altitude) {
  const double geometric_m = std::clamp(in_metres(altitude), lowest_altitude_m, highest_altitude_m);
  // Gravity weakens upwards; the standard keeps it constant by stretching the altitude instead.
  const double geopotential_m = earth_radius_m * geometric_m / (earth_radius_m + geometric_m);
  const double temperature_ratio = 1.0 - lapse_rate_K_m * geopotential_m / sea_level_temperature_K;
  return pascals(sea_level_pressure_Pa * std::pow(temperature_ratio, exponent));
}

}  // namespace leat::hydraulics
