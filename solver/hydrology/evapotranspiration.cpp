#include "solver/hydrology/evapotranspiration.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "solver/hydrology/humidity.h"

namespace leat::hydrology {
namespace {

constexpr double mm_per_MJ_m2 = 0.408;       // 1 / 2.45 MJ/kg, FAO-56 equation 20
constexpr double usual_wind_2m_m_s = 2.0;    // FAO-56 chapter 3, where no wind is known
constexpr double least_wind_height_m = 0.5;  // below it the logarithm has no meaning

double radiation_of(const WeatherAtPlace& weather, const SunDay& sun) {
  if (weather.sunshine_h) {
    return radiation_from_sunshine_MJ_m2(sun, *weather.sunshine_h);
  }
  return radiation_from_temperature_range_MJ_m2(
      sun, weather.lowest_C, weather.highest_C, weather.altitude_m, weather.setting);
}

}  // namespace

ReferenceEvapotranspiration penman_monteith(const WeatherAtPlace& weather) {
  const SunDay sun = sun_day(weather.latitude_degrees, weather.day_of_year);
  ReferenceEvapotranspiration result;
  result.extraterrestrial_MJ_m2 = sun.extraterrestrial_MJ_m2;
  result.wind_2m_m_s = weather.wind_2m_m_s.value_or(usual_wind_2m_m_s);
  result.vapour_pressure_kPa = weather.vapour_pressure_kPa.value_or(
      vapour_pressure_from_lowest_temperature_kPa(weather.lowest_C));
  result.radiation_MJ_m2 = radiation_of(weather, sun);
  const double longwave_MJ_m2 =
      net_longwave_loss_MJ_m2(weather.lowest_C,
                              weather.highest_C,
                              result.vapour_pressure_kPa,
                              result.radiation_MJ_m2,
                              clear_sky_radiation_MJ_m2(sun, weather.altitude_m));
  result.net_radiation_MJ_m2 = net_radiation_MJ_m2(result.radiation_MJ_m2, longwave_MJ_m2);

  const double mean_C = 0.5 * (weather.lowest_C + weather.highest_C);
  const double slope = saturation_slope_kPa_C(mean_C);
  const double psychrometric = psychrometric_constant_kPa_C(weather.altitude_m);
  // Humidity and temperatures from different instruments may claim air wetter than saturated.
  const double deficit_kPa =
      std::max(day_saturation_vapour_pressure_kPa(weather.lowest_C, weather.highest_C) -
                   result.vapour_pressure_kPa,
               0.0);
  const double sun_part =
      mm_per_MJ_m2 * slope * (result.net_radiation_MJ_m2 - weather.soil_heat_MJ_m2);
  const double wind_part =
      psychrometric * 900.0 / (mean_C + 273.0) * result.wind_2m_m_s * deficit_kPa;
  result.mm_per_day = std::max(
      (sun_part + wind_part) / (slope + psychrometric * (1.0 + 0.34 * result.wind_2m_m_s)), 0.0);
  return result;
}

double hargreaves_mm_per_day(const WeatherAtPlace& weather) {
  const SunDay sun = sun_day(weather.latitude_degrees, weather.day_of_year);
  const double mean_C = 0.5 * (weather.lowest_C + weather.highest_C);
  const double range_C = std::max(weather.highest_C - weather.lowest_C, 0.0);
  return std::max(
      0.0023 * (mean_C + 17.8) * std::sqrt(range_C) * mm_per_MJ_m2 * sun.extraterrestrial_MJ_m2,
      0.0);
}

double wind_at_2m_m_s(double wind_m_s, double height_m) {
  if (!(height_m >= least_wind_height_m)) {
    throw std::invalid_argument("wind is measured 0.5 m above the ground or higher");
  }
  return wind_m_s * 4.87 / std::log(67.8 * height_m - 5.42);
}

}  // namespace leat::hydrology
