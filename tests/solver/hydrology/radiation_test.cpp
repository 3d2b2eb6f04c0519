#include "solver/hydrology/radiation.h"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

namespace leat::hydrology {
namespace {

TEST_CASE("the sun above the air is as the handbook has it", "[reference]") {
  // Reference J2.4, FAO-56 example 8: 20 S, 3 September, 32.2 printed, 32.194 computed there.
  CHECK(sun_day(-20.0, 246).extraterrestrial_MJ_m2 == Approx(32.194).epsilon(1e-3));
  // FAO-56 example 9 (from memory): daylight 11.7 h on the same day and place.
  CHECK(sun_day(-20.0, 246).daylight_h == Approx(11.7).margin(0.06));
}

TEST_CASE("sunshine, long-wave loss and net radiation are as in the Rio de Janeiro examples",
          "[reference]") {
  // FAO-56 examples 10 to 12, from memory: 22 54 S, middle of May (J 135), 220 h of sunshine in the
  // month, 25.1/19.1 C, ea 2.1 kPa, printed: Ra 25.1, N 10.9, n 7.1, Rs 14.5, Rso 18.8 (no
  // altitude), Rnl 3.5, Rn 7.6 (11.1 - 3.5). Margin: half of the last digit, doubled for rounding
  // on the way.
  const SunDay sun = sun_day(-(22.0 + 54.0 / 60.0), 135);
  CHECK(sun.extraterrestrial_MJ_m2 == Approx(25.1).margin(0.1));
  CHECK(sun.daylight_h == Approx(10.9).margin(0.1));
  const double radiation = radiation_from_sunshine_MJ_m2(sun, 220.0 / 31.0);
  CHECK(radiation == Approx(14.5).margin(0.1));
  const double clear = clear_sky_radiation_MJ_m2(sun, 0.0);
  CHECK(clear == Approx(18.8).margin(0.1));
  const double loss = net_longwave_loss_MJ_m2(19.1, 25.1, 2.1, radiation, clear);
  CHECK(loss == Approx(3.5).margin(0.1));
  CHECK(net_radiation_MJ_m2(radiation, loss) == Approx(7.6).margin(0.1));
}

TEST_CASE("radiation from the temperature range is as in the Lyon example", "[reference]") {
  // FAO-56 example 15, from memory: 45 43 N, July, 26.6/14.8 C, inland: Ra 40.6, Rs 22.3.
  const SunDay sun = sun_day(45.0 + 43.0 / 60.0, 196);
  CHECK(sun.extraterrestrial_MJ_m2 == Approx(40.6).margin(0.1));
  CHECK(radiation_from_temperature_range_MJ_m2(sun, 14.8, 26.6, 200.0, Setting::Inland) ==
        Approx(22.3).margin(0.1));
}

TEST_CASE("the year's sun above the air at the equator is the solar constant's share", "[law]") {
  // A ball catches pi r^2 of sun; one turn spreads a belt's share. On the equator the day's sum is
  // 24 h x 0.0820 x 60 / pi x cos(declination), whose mean over the year for a declination of 0.409
  // sin is J0(0.409) = 1 - 0.409^2/4 + 0.409^4/64 = 0.95862.
  double sum = 0.0;
  for (int day = 1; day <= 365; ++day) {
    sum += sun_day(0.0, day).extraterrestrial_MJ_m2;
  }
  CHECK(sum / 365.0 == Approx(24.0 * 60.0 * 0.0820 / std::numbers::pi * 0.95862).epsilon(1e-3));
}

TEST_CASE("near the pole the sun stays up in June and down in December") {
  CHECK(sun_day(80.0, 172).daylight_h == Approx(24.0));
  CHECK(sun_day(80.0, 355).daylight_h == 0.0);
  CHECK(sun_day(80.0, 355).extraterrestrial_MJ_m2 == Approx(0.0).margin(1e-12));
  CHECK(radiation_from_sunshine_MJ_m2(sun_day(80.0, 355), 3.0) == 0.0);
  CHECK(std::isfinite(sun_day(90.0, 172).extraterrestrial_MJ_m2));
  CHECK(std::isfinite(sun_day(-90.0, 80).extraterrestrial_MJ_m2));
  CHECK(std::isfinite(net_longwave_loss_MJ_m2(-30.0, -20.0, 0.05, 0.0, 0.0)));
}

TEST_CASE("no day brings more sun to the ground than a clear one", "[law]") {
  for (int day = 1; day <= 365; day += 7) {
    for (double latitude = -66.0; latitude <= 66.0; latitude += 11.0) {
      CAPTURE(day, latitude);
      const SunDay sun = sun_day(latitude, day);
      const double clear = clear_sky_radiation_MJ_m2(sun, 0.0);
      CHECK(radiation_from_sunshine_MJ_m2(sun, 30.0) <= clear * (1.0 + 1e-12));
      CHECK(radiation_from_temperature_range_MJ_m2(sun, 0.0, 35.0, 0.0, Setting::Coast) <= clear);
      CHECK(radiation_from_sunshine_MJ_m2(sun, 2.0) <= radiation_from_sunshine_MJ_m2(sun, 4.0));
      CHECK(clear <= sun.extraterrestrial_MJ_m2);
    }
  }
}

TEST_CASE("south sees half a year later what north sees, but for the sun's distance", "[law]") {
  const SunDay north = sun_day(40.0, 172);
  const SunDay south = sun_day(-40.0, 355);
  CHECK(south.daylight_h == Approx(north.daylight_h).epsilon(2e-3));
  CHECK(south.extraterrestrial_MJ_m2 > north.extraterrestrial_MJ_m2);  // nearer in January
}

}  // namespace
}  // namespace leat::hydrology
