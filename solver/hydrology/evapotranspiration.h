// Room: pure functions of sun, rain, ponds, frost, pumps and rams.
//
// What sun, wind and dry air take in a day: from short grass, and from that, from open water.
#pragma once

#include <optional>

#include "solver/hydrology/radiation.h"

namespace leat::hydrology {

/// One day's weather (or a month's mean day) at one place. What is empty is taken as FAO-56 says.
struct WeatherAtPlace {
  double latitude_degrees = 0.0;  // south negative
  double altitude_m = 0.0;
  int day_of_year = 1;    // 1 to 366; for a month its middle day
  double lowest_C = 0.0;  // -50 to 50
  double highest_C = 0.0;
  std::optional<double> vapour_pressure_kPa;  // empty: saturation at the lowest temperature
  std::optional<double> wind_2m_m_s;          // empty: 2 m/s
  std::optional<double> sunshine_h;           // empty: from the temperature range
  Setting setting = Setting::Inland;          // read only where sunshine is empty
  double soil_heat_MJ_m2 = 0.0;  // into the soil; nothing for a day (FAO-56 equation 42)
};

/// The answer with what it was made of.
struct ReferenceEvapotranspiration {
  double mm_per_day = 0.0;  // never negative: dew is not reckoned
  double extraterrestrial_MJ_m2 = 0.0;
  double radiation_MJ_m2 = 0.0;
  double net_radiation_MJ_m2 = 0.0;
  double vapour_pressure_kPa = 0.0;
  double wind_2m_m_s = 0.0;
};

/// Reference evapotranspiration by FAO-56 Penman-Monteith (Allen, Pereira, Raes, Smith 1998,
/// equation 6).
[[nodiscard]] ReferenceEvapotranspiration penman_monteith(const WeatherAtPlace& weather);

/// Reference evapotranspiration from temperatures alone [mm/day]: Hargreaves, FAO-56 equation 52.
/// Reads latitude, day and temperatures.
[[nodiscard]] double hargreaves_mm_per_day(const WeatherAtPlace& weather);

/// Wind at 2 m [m/s] from wind measured over short grass at `height_m` (0.5 m and up): FAO-56
/// equation 47. Throws std::invalid_argument below 0.5 m.
[[nodiscard]] double wind_at_2m_m_s(double wind_m_s, double height_m);

/// Open water less than 2 m deep evaporates 1.05 times the reference (FAO-56 table 12, from
/// memory). Deeper water stores summer heat: less in spring, more in autumn.
inline constexpr double open_water_coefficient = 1.05;

}  // namespace leat::hydrology
