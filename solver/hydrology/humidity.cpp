#include "solver/hydrology/humidity.h"

#include <cmath>

namespace leat::hydrology {

double saturation_vapour_pressure_kPa(double temperature_C) {
  return 0.6108 * std::exp(17.27 * temperature_C / (temperature_C + 237.3));
}

double saturation_slope_kPa_C(double temperature_C) {
  const double shifted_C = temperature_C + 237.3;
  return 4098.0 * saturation_vapour_pressure_kPa(temperature_C) / (shifted_C * shifted_C);
}

double day_saturation_vapour_pressure_kPa(double lowest_C, double highest_C) {
  return 0.5 *
         (saturation_vapour_pressure_kPa(lowest_C) + saturation_vapour_pressure_kPa(highest_C));
}

double vapour_pressure_from_humidity_range_kPa(double lowest_C,
                                               double highest_C,
                                               double highest_humidity_percent,
                                               double lowest_humidity_percent) {
  // The air is dampest when it is coldest.
  return 0.005 * (saturation_vapour_pressure_kPa(lowest_C) * highest_humidity_percent +
                  saturation_vapour_pressure_kPa(highest_C) * lowest_humidity_percent);
}

double vapour_pressure_from_mean_humidity_kPa(double lowest_C,
                                              double highest_C,
                                              double mean_humidity_percent) {
  return 0.01 * mean_humidity_percent * day_saturation_vapour_pressure_kPa(lowest_C, highest_C);
}

double vapour_pressure_from_lowest_temperature_kPa(double lowest_C) {
  return saturation_vapour_pressure_kPa(lowest_C);
}

double fao_air_pressure_kPa(double altitude_m) {
  return 101.3 * std::pow((293.0 - 0.0065 * altitude_m) / 293.0, 5.26);
}

double psychrometric_constant_kPa_C(double altitude_m) {
  return 0.665e-3 * fao_air_pressure_kPa(altitude_m);
}

}  // namespace leat::hydrology
