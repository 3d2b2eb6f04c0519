#include "solver/hydrology/pump.h"

#include <limits>
#include <stdexcept>
#include <vector>

#include <catch2/catch.hpp>

namespace leat::hydrology {
namespace {

std::vector<TablePoint> small_pump() {
  return {{0.0, 30.0}, {0.5e-3, 27.0}, {1.0e-3, 20.0}, {1.4e-3, 8.0}};
}

TEST_CASE("a pump gives its maker's heads, and between them the straight line") {
  const PumpCurve pump(small_pump());
  CHECK(pump.shut_off_head_m() == 30.0);
  CHECK(pump.run_out_flow_m3_s() == 1.4e-3);
  CHECK(pump.head_m(0.75e-3).value == Approx(23.5));
  CHECK(pump.flow_m3_s(23.5) == Approx(0.75e-3));
  CHECK(pump.flow_m3_s(30.0) == Approx(0.0).margin(1e-15));
  CHECK(pump.flow_m3_s(36.0) == Approx(-1.0e-3));  // 6 m per 1 L/s on the first piece
}

TEST_CASE("a curve that begins above rest is led back to shut-off") {
  // 27 m at 0.5 and 20 m at 1 L/s: 7 m per half a litre, so 34 m at rest.
  const PumpCurve pump({{0.5e-3, 27.0}, {1.0e-3, 20.0}});
  CHECK(pump.shut_off_head_m() == Approx(34.0));
}

TEST_CASE("a pump's head falls strictly with its flow, beyond run-out too", "[law]") {
  const PumpCurve pump(small_pump());
  double before = 1e9;
  for (int step = -50; step <= 250; ++step) {
    const TableValue now = pump.head_m(1e-5 * step);
    CAPTURE(step);
    REQUIRE(now.value < before);
    REQUIRE(now.slope < 0.0);
    REQUIRE(pump.flow_m3_s(now.value) == Approx(1e-5 * step).margin(1e-12));
    before = now.value;
  }
}

TEST_CASE("a pump curve that rises or stands still is refused") {
  using Points = std::vector<TablePoint>;
  CHECK_THROWS_AS(PumpCurve(Points{{0.0, 30.0}}), std::invalid_argument);
  CHECK_THROWS_AS(PumpCurve(Points{{0.0, 30.0}, {1.0, 30.0}}), std::invalid_argument);
  CHECK_THROWS_AS(PumpCurve(Points{{0.0, 30.0}, {0.0, 20.0}}), std::invalid_argument);
  CHECK_THROWS_AS(PumpCurve(Points{{-1.0, 30.0}, {1.0, 20.0}}), std::invalid_argument);
  constexpr double endless = std::numeric_limits<double>::infinity();
  CHECK_THROWS_AS(PumpCurve(Points{{0.0, endless}, {1.0, 20.0}}), std::invalid_argument);
  CHECK_THROWS_AS(PumpCurve(Points{{0.0, 30.0}, {endless, 20.0}}), std::invalid_argument);
}

TEST_CASE("a litre a second lifted ten metres takes 98 watts at the water") {
  // 1000 kg/m3 x 9.80665 m/s2 x 0.001 m3/s x 10 m = 98.0665 W, twice that at half efficiency.
  CHECK(pump_power_W(1e-3, 10.0, 1.0, 1000.0) == Approx(98.0665).epsilon(1e-9));
  CHECK(pump_power_W(1e-3, 10.0, 0.5, 1000.0) == Approx(196.133).epsilon(1e-9));
}

TEST_CASE("a kilowatt hour lifts a cubic metre 367 metres") {
  // 3.6e6 J / (1000 kg x 9.80665 m/s2) = 367.098 m.
  CHECK(pump_energy_kWh(1.0, 367.098, 1.0, 1000.0) == Approx(1.0).epsilon(1e-5));
  CHECK(pump_energy_kWh(10.0, 36.7098, 0.25, 1000.0) == Approx(4.0).epsilon(1e-5));
}

}  // namespace
}  // namespace leat::hydrology
