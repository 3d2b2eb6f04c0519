#include "solver/hydrology/evapotranspiration.h"

#include <stdexcept>

#include <catch2/catch.hpp>

#include "solver/hydrology/humidity.h"

namespace leat::hydrology {
namespace {

WeatherAtPlace uccle_in_july() {
  WeatherAtPlace weather;
  weather.latitude_degrees = 50.0 + 48.0 / 60.0;
  weather.altitude_m = 100.0;
  weather.day_of_year = 187;
  weather.lowest_C = 12.3;
  weather.highest_C = 21.5;
  weather.vapour_pressure_kPa = vapour_pressure_from_humidity_range_kPa(12.3, 21.5, 84.0, 63.0);
  weather.wind_2m_m_s = wind_at_2m_m_s(2.78, 10.0);
  weather.sunshine_h = 9.25;
  return weather;
}

WeatherAtPlace lyon_in_july() {
  WeatherAtPlace weather;
  weather.latitude_degrees = 45.0 + 43.0 / 60.0;
  weather.altitude_m = 200.0;
  weather.day_of_year = 196;
  weather.lowest_C = 14.8;
  weather.highest_C = 26.6;
  return weather;
}

TEST_CASE("a July day at Uccle takes what the handbook prints", "[reference]") {
  // Reference J2.1: FAO-56 example 18; printed 3.9 (3.88), computed there 3.8805 with u2 2.079,
  // ea 1.4086, Ra 41.09, Rs 22.072, Rn 13.283.
  const ReferenceEvapotranspiration result = penman_monteith(uccle_in_july());
  CHECK(result.wind_2m_m_s == Approx(2.079).epsilon(5e-4));
  CHECK(result.vapour_pressure_kPa == Approx(1.4086).epsilon(1e-4));
  CHECK(result.extraterrestrial_MJ_m2 == Approx(41.09).epsilon(2e-4));
  CHECK(result.radiation_MJ_m2 == Approx(22.072).epsilon(1e-4));
  CHECK(result.net_radiation_MJ_m2 == Approx(13.283).epsilon(1e-3));
  CHECK(result.mm_per_day == Approx(3.8805).epsilon(5e-3));
}

TEST_CASE("an April day at Bangkok takes what the handbook prints", "[reference]") {
  // Reference J2.2: FAO-56 example 17; printed 5.72, computed there 5.7161.
  WeatherAtPlace weather;
  weather.latitude_degrees = 13.0 + 44.0 / 60.0;
  weather.altitude_m = 2.0;
  weather.day_of_year = 105;
  weather.lowest_C = 25.6;
  weather.highest_C = 34.8;
  weather.vapour_pressure_kPa = 2.85;
  weather.wind_2m_m_s = 2.0;
  weather.sunshine_h = 8.5;
  weather.soil_heat_MJ_m2 = 0.14;
  CHECK(penman_monteith(weather).mm_per_day == Approx(5.7161).epsilon(5e-3));
}

TEST_CASE("a July day near Lyon, temperatures alone, takes what the handbook prints",
          "[reference]") {
  // Reference J2.3: FAO-56 example 20; printed 4.56, computed there 4.5604; Hargreaves 5.0, 5.0331.
  CHECK(penman_monteith(lyon_in_july()).mm_per_day == Approx(4.5604).epsilon(1e-2));
  CHECK(hargreaves_mm_per_day(lyon_in_july()) == Approx(5.0331).epsilon(1e-2));
}

TEST_CASE("wind is slower near the ground than at ten metres", "[reference]") {
  // FAO-56 example 14, from memory: 3.2 m/s at 10 m is 2.4 m/s at 2 m.
  CHECK(wind_at_2m_m_s(3.2, 10.0) == Approx(2.4).margin(0.06));
  CHECK(wind_at_2m_m_s(3.2, 2.0) == Approx(3.2).epsilon(1e-3));
  CHECK_THROWS_AS(wind_at_2m_m_s(3.2, 0.05), std::invalid_argument);
}

TEST_CASE("more sun and drier air take more water on a summer day", "[law]") {
  double before = -1.0;
  for (double sunshine_h = 0.0; sunshine_h <= 16.0; sunshine_h += 1.0) {
    WeatherAtPlace weather = uccle_in_july();
    weather.sunshine_h = sunshine_h;
    const double now = penman_monteith(weather).mm_per_day;
    CAPTURE(sunshine_h);
    CHECK(now > before);
    before = now;
  }
  before = 100.0;
  for (double vapour_kPa = 0.3; vapour_kPa < 1.4; vapour_kPa += 0.1) {
    // Drier air also lets more heat out by night: with the sun of July that does not win.
    WeatherAtPlace weather = uccle_in_july();
    weather.vapour_pressure_kPa = vapour_kPa;
    const double now = penman_monteith(weather).mm_per_day;
    CAPTURE(vapour_kPa);
    CHECK(now < before);
    before = now;
  }
}

TEST_CASE("wind takes more water in dry air and less in damp air", "[law]") {
  // (A + B u) / (C + D u) rises with u where B C > A D. In saturated air B is nothing, and wind
  // only cools the leaves; in dry air B wins.
  WeatherAtPlace dry = uccle_in_july();
  dry.vapour_pressure_kPa = 0.8;
  WeatherAtPlace damp = uccle_in_july();
  damp.vapour_pressure_kPa = day_saturation_vapour_pressure_kPa(12.3, 21.5);
  double dry_before = 0.0;
  double damp_before = 100.0;
  for (double wind = 0.0; wind <= 8.0; wind += 0.5) {
    dry.wind_2m_m_s = wind;
    damp.wind_2m_m_s = wind;
    const double dry_now = penman_monteith(dry).mm_per_day;
    const double damp_now = penman_monteith(damp).mm_per_day;
    CAPTURE(wind);
    CHECK(dry_now > dry_before);
    CHECK(damp_now < damp_before);
    dry_before = dry_now;
    damp_before = damp_now;
  }
}

TEST_CASE("a polar winter night and air wetter than saturated take nothing, never less") {
  WeatherAtPlace weather;
  weather.latitude_degrees = 80.0;
  weather.day_of_year = 355;
  weather.lowest_C = -30.0;
  weather.highest_C = -20.0;
  weather.vapour_pressure_kPa = 3.0;
  CHECK(penman_monteith(weather).mm_per_day == 0.0);
  CHECK(hargreaves_mm_per_day(weather) == 0.0);
}

TEST_CASE("unknown wind is two metres a second and unknown humidity that of the coldest hour") {
  WeatherAtPlace told = lyon_in_july();
  told.wind_2m_m_s = 2.0;
  told.vapour_pressure_kPa = saturation_vapour_pressure_kPa(14.8);
  CHECK(penman_monteith(lyon_in_july()).mm_per_day == penman_monteith(told).mm_per_day);
}

}  // namespace
}  // namespace leat::hydrology
