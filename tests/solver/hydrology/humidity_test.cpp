#include "solver/hydrology/humidity.h"

#include <catch2/catch.hpp>

namespace leat::hydrology {
namespace {

TEST_CASE("air holds as much water as the handbook's examples print", "[reference]") {
  // FAO-56 examples 2, 3 and 5 and annex table 2.4, printed figures from memory; the margin is half
  // of the last printed digit, and a digit more where the example rounds on its way.
  CHECK(saturation_vapour_pressure_kPa(24.5) == Approx(3.075).margin(6e-4));
  CHECK(saturation_vapour_pressure_kPa(15.0) == Approx(1.705).margin(6e-4));
  CHECK(day_saturation_vapour_pressure_kPa(15.0, 24.5) == Approx(2.39).margin(6e-3));
  CHECK(vapour_pressure_from_humidity_range_kPa(18.0, 25.0, 82.0, 54.0) ==
        Approx(1.70).margin(6e-3));
  CHECK(saturation_slope_kPa_C(20.0) == Approx(0.145).margin(6e-4));
  CHECK(saturation_slope_kPa_C(30.0) == Approx(0.243).margin(6e-4));
  CHECK(fao_air_pressure_kPa(1800.0) == Approx(81.8).margin(0.06));
  CHECK(psychrometric_constant_kPa_C(1800.0) == Approx(0.054).margin(6e-4));
}

TEST_CASE("the vapour pressure agrees with the saturation curve of water within half a percent",
          "[reference]") {
  // Reference table D1 (IF97, python3-iapws): kPa at 0, 10, 20, 30, 40 C.
  CHECK(saturation_vapour_pressure_kPa(0.0) == Approx(0.6117).epsilon(5e-3));
  CHECK(saturation_vapour_pressure_kPa(10.0) == Approx(1.2282).epsilon(5e-3));
  CHECK(saturation_vapour_pressure_kPa(20.0) == Approx(2.3392).epsilon(5e-3));
  CHECK(saturation_vapour_pressure_kPa(30.0) == Approx(4.2467).epsilon(5e-3));
  CHECK(saturation_vapour_pressure_kPa(40.0) == Approx(7.3844).epsilon(5e-3));
}

TEST_CASE("the slope of the vapour pressure is its derivative", "[law]") {
  for (double temperature_C = -20.0; temperature_C <= 45.0; temperature_C += 2.5) {
    CAPTURE(temperature_C);
    const double step_C = 1e-3;
    const double difference = (saturation_vapour_pressure_kPa(temperature_C + step_C) -
                               saturation_vapour_pressure_kPa(temperature_C - step_C)) /
                              (2.0 * step_C);
    // FAO-56 rounds 17.27 x 237.3 = 4098.17 to 4098.
    CHECK(saturation_slope_kPa_C(temperature_C) == Approx(difference).epsilon(1e-4));
  }
}

TEST_CASE("mean humidity of 100 percent is saturation and half of it half") {
  const double full = day_saturation_vapour_pressure_kPa(8.0, 22.0);
  CHECK(vapour_pressure_from_mean_humidity_kPa(8.0, 22.0, 100.0) == Approx(full));
  CHECK(vapour_pressure_from_mean_humidity_kPa(8.0, 22.0, 50.0) == Approx(0.5 * full));
  CHECK(vapour_pressure_from_humidity_range_kPa(8.0, 22.0, 60.0, 60.0) == Approx(0.6 * full));
  CHECK(vapour_pressure_from_lowest_temperature_kPa(8.0) < full);
}

}  // namespace
}  // namespace leat::hydrology
