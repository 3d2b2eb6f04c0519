#include "solver/hydraulics/pressure_wave.h"

#include <string>

#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"

namespace leat::hydraulics {
namespace {

struct WaveRow {
  std::string source;
  double modulus_GPa;
  double bore_over_wall;
  double speed_m_s;
};

TEST_CASE("a pressure wave runs as fast as the published walls let it", "[reference]") {
  const std::string steel = "reference G3: K 2.15 GPa, rho 1000, sch 40 steel, E 207 GPa, computed";
  const std::string pvc = "reference G3: sch 40 PVC 1 in, E 3.0 GPa, computed";
  // D = ID, so the bore over the wall is SDR - 2.
  const std::string pe = "reference G3: polyethylene by SDR, D = ID, c = 1, computed";
  const auto row = GENERATE_COPY(values<WaveRow>({
      {steel, 207.0, 26.64 / 3.38, 1409.7},
      {pvc, 3.0, 26.64 / 3.38, 568.7},
      {pe, 1.0, 11.0 - 2.0, 325.0},
      {pe, 1.0, 13.6 - 2.0, 288.0},
      {pe, 1.0, 17.0 - 2.0, 254.0},
      {pe, 0.8, 11.0 - 2.0, 292.0},
      {pe, 0.8, 13.6 - 2.0, 258.0},
      {pe, 0.8, 17.0 - 2.0, 228.0},
      {pe, 1.4, 11.0 - 2.0, 381.0},
      {pe, 1.4, 13.6 - 2.0, 338.0},
      {pe, 1.4, 17.0 - 2.0, 299.0},
  }));
  CAPTURE(row.source, row.modulus_GPa, row.bore_over_wall);
  const double speed = wave_speed_m_s(1000.0, row.modulus_GPa * 1e9, row.bore_over_wall, 1.0);
  CHECK(speed == Approx(row.speed_m_s).epsilon(0.01));
}

TEST_CASE("in a pipe that does not yield a wave runs at the speed of sound in water",
          "[reference]") {
  // Reference G3, computed: sqrt(2.15e9 / 1000) = 1466.3 m/s.
  CHECK(wave_speed_m_s(1000.0, 1e30, 0.026, 0.003) == Approx(1466.3).epsilon(1e-4));
}

TEST_CASE("water stopped at 1.5 m/s knocks with the published head", "[reference]") {
  // Reference G4, computed: PE100 SDR 11 at 325 m/s 49.7 m, steel 214 m (its wave 1399 m/s: the
  // row's own, within the 1 % that G3 allows of 1409.7).
  CHECK(sudden_stop_head_m(325.0, 1.5) == Approx(49.7).epsilon(0.002));
  CHECK(sudden_stop_head_m(1409.7, 1.5) == Approx(214.0).epsilon(0.01));
}

TEST_CASE("a slow float knocks less than a slam from twice the wave's travel on", "[reference]") {
  // Reference G5, computed: 300 m of polyethylene at 325 m/s: 2 L/a = 1.85 s.
  const double travel_s = 2.0 * 300.0 / 325.0;
  CHECK(travel_s == Approx(1.85).epsilon(0.005));
  const double slam = sudden_stop_head_m(325.0, 1.5);
  CHECK(surge_head_m(325.0, 1.5, 300.0 * 1.5, 0.99 * travel_s) == slam);
  CHECK(surge_head_m(325.0, 1.5, 300.0 * 1.5, 0.0) == slam);
  CHECK(surge_head_m(325.0, 1.5, 300.0 * 1.5, 1.01 * travel_s) < slam);
  // By hand: 2 x 300 m x 1.5 m/s / (9.80665 m/s2 x 10 s) = 9.177 m.
  CHECK(surge_head_m(325.0, 1.5, 300.0 * 1.5, 10.0) == Approx(9.177).epsilon(1e-3));
}

}  // namespace
}  // namespace leat::hydraulics
