#include "solver/hydrology/pond_volume.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <stdexcept>
#include <vector>

#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"
#include "tests/support/pond_rules.h"

namespace leat::hydrology {
namespace {

constexpr double m3_per_ft3 = metres_per_foot * metres_per_foot * metres_per_foot;
constexpr double m2_per_ft2 = metres_per_foot * metres_per_foot;
constexpr double m2_per_acre = 43560.0 * m2_per_ft2;
constexpr double m3_per_acre_foot = 43560.0 * m3_per_ft3;

TEST_CASE("a dug pond with 2 to 1 sides holds the published cubic feet", "[reference]") {
  // Reference J4, USDA AH-590 example: 12 ft deep, bottom 40 x 100 ft, so the top is 88 x 148 ft;
  // areas 13 024, 7 936, 4 000 ft2, volume 97 536 ft3 = 2.2391 acre-ft.
  const PondVolume pond = PondVolume::prism(
      100.0, 148.0 * metres_per_foot, 88.0 * metres_per_foot, 2.0, 12.0 * metres_per_foot);
  const double bottom_m = 100.0 - 12.0 * metres_per_foot;
  CHECK(pond.bottom_level_m() == Approx(bottom_m));
  CHECK(pond.area_m2(100.0) / m2_per_ft2 == Approx(13024.0).epsilon(1e-12));
  CHECK(pond.area_m2(bottom_m + 6.0 * metres_per_foot) / m2_per_ft2 ==
        Approx(7936.0).epsilon(1e-12));
  CHECK(pond.area_m2(pond.bottom_level_m()) / m2_per_ft2 == Approx(4000.0).epsilon(1e-12));
  CHECK(pond.full_volume_m3() / m3_per_ft3 == Approx(97536.0).epsilon(1e-12));
  CHECK(pond.full_volume_m3() / m3_per_acre_foot == Approx(2.2391).epsilon(3e-5));
}

TEST_CASE("a metric rectangle holds its exact volume", "[reference]") {
  // Reference J4.3: 20 x 10 m top, 2 m deep, 2:1: areas 200/96/24, 202.667 m3 = 608/3.
  const PondVolume pond = PondVolume::prism(50.0, 20.0, 10.0, 2.0, 2.0);
  CHECK(pond.area_m2(50.0) == Approx(200.0));
  CHECK(pond.area_m2(49.0) == Approx(96.0));
  CHECK(pond.area_m2(48.0) == Approx(24.0));
  CHECK(pond.full_volume_m3() == Approx(608.0 / 3.0).epsilon(1e-12));
}

TEST_CASE("a round pond holds the volume of the cone's frustum", "[reference]") {
  // Reference J4.4: radii 10 and 6 m, 2 m deep: 410.501 m3.
  const PondVolume pond = PondVolume::cone(50.0, 20.0, 2.0, 2.0);
  CHECK(pond.full_volume_m3() == Approx(410.501).epsilon(2e-6));
}

TEST_CASE("the quick rules give the published acre-feet and acres", "[reference]") {
  // Reference J4.2: 12.5 ft, 3.2 ac: 16.0 acre-ft; J4.5: shoreline 520 ft: 0.4940 ac.
  CHECK(rule_volume_m3(12.5 * metres_per_foot, 3.2 * m2_per_acre) / m3_per_acre_foot ==
        Approx(16.0).epsilon(1e-9));
  CHECK(area_of_round_pond_m2(520.0 * metres_per_foot) / m2_per_acre ==
        Approx(0.4940).margin(5e-5));
}

TEST_CASE("sides that meet before the stated depth end the pond there") {
  // 10 m across at 2:1 meets 2.5 m down. A wedge and two half pyramids: the integral of 4 z (10 +
  // 4 z) from 0 to 2.5 m is 20 z^2 + 16/3 z^3 = 208.333 m3.
  const PondVolume trench = PondVolume::prism(0.0, 20.0, 10.0, 2.0, 4.0);
  CHECK(trench.bottom_level_m() == Approx(-2.5));
  CHECK(trench.full_volume_m3() == Approx(208.3333).epsilon(1e-6));
  const PondVolume pit = PondVolume::cone(0.0, 6.0, 1.0, 9.0);  // pi 9 3 / 3 = 28.2743 m3
  CHECK(pit.bottom_level_m() == Approx(-3.0));
  CHECK(pit.full_volume_m3() == Approx(28.27433).epsilon(1e-6));
}

TEST_CASE("a table's areas run straight between its rows") {
  const std::vector<LevelAndArea> rows = {{10.0, 0.0}, {11.0, 100.0}, {13.0, 300.0}};
  const PondVolume pond = PondVolume::from_table(rows);
  CHECK(pond.area_m2(10.5) == Approx(50.0).epsilon(1e-5));
  CHECK(pond.area_m2(12.0) == Approx(200.0));
  CHECK(pond.volume_m3(11.0) == Approx(50.0).epsilon(1e-5));
  CHECK(pond.full_volume_m3() == Approx(50.0 + 400.0).epsilon(1e-5));
  CHECK(pond.volume_m3(14.0) == Approx(450.0 + 300.0).epsilon(1e-5));  // upright above the top
}

TEST_CASE("a pond that makes no sense is refused") {
  const std::vector<LevelAndArea> one = {{1.0, 5.0}};
  const std::vector<LevelAndArea> falling = {{1.0, 5.0}, {1.0, 6.0}};
  const std::vector<LevelAndArea> negative = {{1.0, -5.0}, {2.0, 6.0}};
  const std::vector<LevelAndArea> no_number = {{1.0, 5.0},
                                               {2.0, std::numeric_limits<double>::quiet_NaN()}};
  CHECK_THROWS_AS(PondVolume::from_table({}), std::invalid_argument);
  CHECK_THROWS_AS(PondVolume::from_table(one), std::invalid_argument);
  CHECK_THROWS_AS(PondVolume::from_table(falling), std::invalid_argument);
  CHECK_THROWS_AS(PondVolume::from_table(negative), std::invalid_argument);
  CHECK_THROWS_AS(PondVolume::from_table(no_number), std::invalid_argument);
  CHECK_THROWS_AS(PondVolume::prism(0.0, 0.0, 5.0, 2.0, 1.0), std::invalid_argument);
  CHECK_THROWS_AS(PondVolume::prism(0.0, 5.0, 5.0, -1.0, 1.0), std::invalid_argument);
  CHECK_THROWS_AS(PondVolume::cone(0.0, 5.0, 1.0, -2.0), std::invalid_argument);
}

std::vector<PondVolume> many_ponds() {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> size(2.0, 80.0);
  std::uniform_real_distribution<double> run(0.0, 4.0);
  std::uniform_real_distribution<double> depth(0.3, 6.0);
  std::uniform_real_distribution<double> level(-50.0, 1500.0);
  std::vector<PondVolume> ponds;
  for (int turn = 0; turn < 60; ++turn) {
    ponds.push_back(
        PondVolume::prism(level(random), size(random), size(random), run(random), depth(random)));
    ponds.push_back(PondVolume::cone(level(random), size(random), run(random), depth(random)));
    std::vector<LevelAndArea> rows = {{level(random), turn % 3 == 0 ? 0.0 : size(random)}};
    for (int row = 0; row < 1 + turn % 5; ++row) {
      rows.push_back({rows.back().level_m + depth(random), 20.0 * size(random)});
    }
    ponds.push_back(PondVolume::from_table(rows));
  }
  ponds.push_back(PondVolume::prism(3.0, 2.0, 2.0, 0.0, 1.0));      // upright walls
  ponds.push_back(PondVolume::prism(3.0, 0.005, 0.005, 0.0, 1.0));  // narrower than the shaft
  return ponds;
}

TEST_CASE("a pond's area is the slope of its volume, inside, below and above", "[law]") {
  for (const PondVolume& pond : many_ponds()) {
    const double span_m = pond.top_level_m() - pond.bottom_level_m();
    CAPTURE(pond.bottom_level_m(), pond.top_level_m());
    for (int step = -20; step <= 120; ++step) {
      const double level_m = pond.bottom_level_m() + span_m * (step + 0.37) / 100.0;
      const double half_m = 1e-4 * span_m;
      const double difference = pond.volume_m3(level_m + half_m) - pond.volume_m3(level_m - half_m);
      const double area_m2 = pond.area_m2(level_m);
      CAPTURE(level_m);
      // The mean slope over a short stretch lies between the areas at its ends and middle, also
      // where a table's row or the bottom lies within it.
      const double slope_m2 = difference / (2.0 * half_m);
      const auto [least_m2, most_m2] =
          std::minmax({pond.area_m2(level_m - half_m), area_m2, pond.area_m2(level_m + half_m)});
      REQUIRE(slope_m2 >= least_m2 * (1.0 - 1e-4) - 1e-6);
      REQUIRE(slope_m2 <= most_m2 * (1.0 + 1e-4) + 1e-6);
      REQUIRE(most_m2 - least_m2 <= 0.2 * most_m2);  // narrow enough to be a test
      REQUIRE(area_m2 >= PondVolume::least_area_m2 * (1.0 - 1e-9));
    }
  }
}

TEST_CASE("a pond's volume is the sum of its areas and leads back to its level", "[law]") {
  for (const PondVolume& pond : many_ponds()) {
    const double span_m = pond.top_level_m() - pond.bottom_level_m();
    CAPTURE(pond.bottom_level_m(), pond.top_level_m());
    double sum_m3 = 0.0;
    double before_m3 = pond.volume_m3(pond.bottom_level_m());
    CHECK(before_m3 == 0.0);
    constexpr int slices = 4000;
    for (int slice = 0; slice < slices; ++slice) {
      sum_m3 +=
          span_m / slices * pond.area_m2(pond.bottom_level_m() + span_m * (slice + 0.5) / slices);
    }
    CHECK(pond.full_volume_m3() == Approx(sum_m3).epsilon(1e-5));
    before_m3 = -1e9;
    for (int step = -20; step <= 120; ++step) {
      const double level_m = pond.bottom_level_m() + span_m * step / 100.0;
      const double volume_m3 = pond.volume_m3(level_m);
      CAPTURE(level_m);
      REQUIRE(volume_m3 > before_m3);
      before_m3 = volume_m3;
      // Twelve digits of a level, and what one digit of a volume means at this area.
      const double margin_m =
          1e-12 * std::abs(level_m) + 1e-14 * std::abs(volume_m3) / PondVolume::least_area_m2;
      REQUIRE(pond.level_m(volume_m3) == Approx(level_m).epsilon(0.0).margin(margin_m + 1e-12));
    }
  }
}

}  // namespace
}  // namespace leat::hydrology
