#include "solver/hydrology/radiation.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace leat::hydrology {
namespace {

double fourth_power_of_kelvin(double temperature_C) {
  const double square = (temperature_C + 273.16) * (temperature_C + 273.16);  // as FAO-56 has it
  return square * square;
}

}  // namespace

SunDay sun_day(double latitude_degrees, int day_of_year) {
  constexpr double solar_constant_MJ_m2_min = 0.0820;
  const double latitude = latitude_degrees * std::numbers::pi / 180.0;
  const double turn = 2.0 * std::numbers::pi * day_of_year / 365.0;
  const double inverse_distance = 1.0 + 0.033 * std::cos(turn);
  const double declination = 0.409 * std::sin(turn - 1.39);
  const double sunset =
      std::acos(std::clamp(-std::tan(latitude) * std::tan(declination), -1.0, 1.0));
  const double height_sum = sunset * std::sin(latitude) * std::sin(declination) +
                            std::cos(latitude) * std::cos(declination) * std::sin(sunset);
  // Rounding may leave a speck below nothing where the sun does not rise.
  return {
      .extraterrestrial_MJ_m2 = std::max(
          24.0 * 60.0 / std::numbers::pi * solar_constant_MJ_m2_min * inverse_distance * height_sum,
          0.0),
      .daylight_h = 24.0 / std::numbers::pi * sunset};
}

double radiation_from_sunshine_MJ_m2(const SunDay& sun, double sunshine_h) {
  if (!(sun.daylight_h > 0.0)) {
    return 0.0;
  }
  const double share = std::clamp(sunshine_h / sun.daylight_h, 0.0, 1.0);
  return (0.25 + 0.50 * share) * sun.extraterrestrial_MJ_m2;
}

double radiation_from_temperature_range_MJ_m2(
    const SunDay& sun, double lowest_C, double highest_C, double altitude_m, Setting setting) {
  const double factor = setting == Setting::Coast ? 0.19 : 0.16;
  const double range_C = std::max(highest_C - lowest_C, 0.0);
  return std::min(factor * std::sqrt(range_C) * sun.extraterrestrial_MJ_m2,
                  clear_sky_radiation_MJ_m2(sun, altitude_m));
}

double clear_sky_radiation_MJ_m2(const SunDay& sun, double altitude_m) {
  return (0.75 + 2e-5 * altitude_m) * sun.extraterrestrial_MJ_m2;
}

double net_longwave_loss_MJ_m2(double lowest_C,
                               double highest_C,
                               double vapour_pressure_kPa,
                               double radiation_MJ_m2,
                               double clear_sky_MJ_m2) {
  constexpr double stefan_boltzmann_MJ_m2_K4_day = 4.903e-9;
  constexpr double least_share = 0.3;
  const double share = clear_sky_MJ_m2 > 0.0
                           ? std::clamp(radiation_MJ_m2 / clear_sky_MJ_m2, least_share, 1.0)
                           : least_share;
  return stefan_boltzmann_MJ_m2_K4_day * 0.5 *
         (fourth_power_of_kelvin(lowest_C) + fourth_power_of_kelvin(highest_C)) *
         (0.34 - 0.14 * std::sqrt(std::max(vapour_pressure_kPa, 0.0))) * (1.35 * share - 0.35);
}

double net_radiation_MJ_m2(double radiation_MJ_m2, double longwave_loss_MJ_m2) {
  constexpr double grass_albedo = 0.23;
  return (1.0 - grass_albedo) * radiation_MJ_m2 - longwave_loss_MJ_m2;
}

}  // namespace leat::hydrology
