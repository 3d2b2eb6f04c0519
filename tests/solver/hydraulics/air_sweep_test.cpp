#include "solver/hydraulics/air_sweep.h"

#include <cmath>
#include <numbers>
#include <string>

#include <catch2/catch.hpp>

namespace leat::hydraulics {
namespace {

constexpr double degree = std::numbers::pi / 180.0;

struct SweepRow {
  double bore_mm;
  double degrees;
  double wisner;
  double escarameia_tiny;
  double escarameia_large;
  double kalinske_bliss;
  double kent;
};

TEST_CASE("water clears air from a falling leg at the published velocities", "[reference]") {
  const std::string source =
      "reference F, check values computed from F1 (Wisner 1975, verified), F2 (Escarameia, SR 661, "
      "form verified, a from memory), F3 (Kalinske and Bliss 1943, from memory), F4 (Mosvell's "
      "Kent "
      "1952, from memory), no safety factor";
  const auto row = GENERATE(values<SweepRow>({
      {20.9, 5.0, 0.407, 0.279, 0.351, 0.143, 0.316},
      {26.6, 5.0, 0.459, 0.314, 0.396, 0.162, 0.356},
      {26.6, 20.0, 0.496, 0.397, 0.479, 0.330, 0.430},
      {40.9, 10.0, 0.588, 0.433, 0.534, 0.285, 0.480},
      {52.5, 20.0, 0.697, 0.558, 0.673, 0.463, 0.604},
      {100.0, 45.0, 1.025, 0.912, 1.070, 1.060, 0.961},
  }));
  CAPTURE(source, row.bore_mm, row.degrees);
  const double bore_m = row.bore_mm / 1e3;
  const double angle = row.degrees * degree;
  const auto as_printed = [](double value) { return Approx(value).epsilon(0.0).margin(0.00061); };
  CHECK(wisner_velocity_m_s(bore_m, angle) == as_printed(row.wisner));
  CHECK(escarameia_velocity_m_s(bore_m, angle, PocketSize::Tiny) ==
        as_printed(row.escarameia_tiny));
  CHECK(escarameia_velocity_m_s(bore_m, angle, PocketSize::Large) ==
        as_printed(row.escarameia_large));
  CHECK(kalinske_bliss_velocity_m_s(bore_m, angle) == as_printed(row.kalinske_bliss));
  CHECK(kent_velocity_m_s(bore_m, angle) == as_printed(row.kent));
}

TEST_CASE("larger pockets need faster water by the published steps", "[reference]") {
  const std::string source = "reference F2: a 0.45, 0.50, 0.57, 0.61 by pocket size, from memory";
  CAPTURE(source);
  // Level pipe leaves the starting figure alone: V = a sqrt(g D), D = 0.1 m, sqrt(g D) = 0.99028.
  const double wave = std::sqrt(9.80665 * 0.1);
  CHECK(escarameia_velocity_m_s(0.1, 0.0, PocketSize::Tiny) == Approx(0.45 * wave));
  CHECK(escarameia_velocity_m_s(0.1, 0.0, PocketSize::Small) == Approx(0.50 * wave));
  CHECK(escarameia_velocity_m_s(0.1, 0.0, PocketSize::Medium) == Approx(0.57 * wave));
  CHECK(escarameia_velocity_m_s(0.1, 0.0, PocketSize::Large) == Approx(0.61 * wave));
}

TEST_CASE("a long bubble in level pipe runs at the published speed", "[reference]") {
  const std::string source = "reference F5, Benjamin 1968, V = 0.542 sqrt(gD), from memory";
  CAPTURE(source);
  // sqrt(9.80665 x 0.0266) = 0.51074 m/s; 0.542 of it is 0.27682 m/s.
  CHECK(level_bubble_velocity_m_s(0.0266) == Approx(0.27682).epsilon(2e-5));
}

TEST_CASE("the sine takes the angle of the pipe and not its grade", "[reference]") {
  // Reference F, check: a grade of 1 in 125 is 0.45836 degrees (question verified, value computed).
  const double angle = std::atan(1.0 / 125.0);
  CHECK(angle / degree == Approx(0.45836).epsilon(1e-5));
  // sqrt(sin) = sqrt(0.0079997) = 0.089442; 0.825 + 0.25 x 0.089442 = 0.847360, sqrt(g D) =
  // 0.51074.
  CHECK(wisner_velocity_m_s(0.0266, angle) == Approx(0.43278).epsilon(2e-5));
}

TEST_CASE("air is swept, stays or is doubtful by the working rule") {
  // 26.6 mm at 20 degrees, by the rows above: stays below 0.397; Escarameia with safety
  // 1.1 x 0.479 = 0.527, Wisner 0.496: swept from 0.527.
  const AirSweep steep = air_sweep(0.0266, 20.0 * degree);
  CHECK(steep.stays_below_m_s == Approx(0.397).epsilon(2e-3));
  CHECK(steep.swept_above_m_s == Approx(0.527).epsilon(2e-3));
  CHECK(steep.verdict(0.39) == AirVerdict::Stays);
  CHECK(steep.verdict(0.45) == AirVerdict::Doubtful);
  CHECK(steep.verdict(0.50) == AirVerdict::Doubtful);  // Wisner alone is not enough
  CHECK(steep.verdict(0.54) == AirVerdict::Swept);
  // At 5 degrees Wisner (0.459) asks for more than 1.1 x 0.396 = 0.436.
  const AirSweep gentle = air_sweep(0.0266, 5.0 * degree);
  CHECK(gentle.swept_above_m_s == Approx(0.459).epsilon(2e-3));
  CHECK(gentle.verdict(0.445) == AirVerdict::Doubtful);
}

TEST_CASE("a leg steeper than anybody tested says so") {
  CHECK_FALSE(air_sweep(0.0266, 29.0 * degree).steeper_than_tested);
  CHECK(air_sweep(0.0266, 31.0 * degree).steeper_than_tested);
  // Upright: sin 1, so 0.45 + 0.56 and 1.1 (0.61 + 0.56); nothing runs away.
  const AirSweep upright = air_sweep(0.1, 90.0 * degree);
  const double wave = std::sqrt(9.80665 * 0.1);
  CHECK(upright.stays_below_m_s == Approx(1.01 * wave));
  CHECK(upright.swept_above_m_s == Approx(1.1 * 1.17 * wave));
}

}  // namespace
}  // namespace leat::hydraulics
