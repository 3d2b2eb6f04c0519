#include "solver/hydrology/curve_number.h"

#include <random>
#include <string>

#include <catch2/catch.hpp>

namespace leat::hydrology {
namespace {

constexpr double mm_per_inch = 25.4;

struct RunoffRow {
  std::string source;
  double rain_in;
  double curve_number;
  double runoff_in;
};

TEST_CASE("a storm runs off as the published examples say", "[reference]") {
  const auto row = GENERATE(values<RunoffRow>({
      {"TR-55 example 2-1 (reference J5, from memory)", 6.0, 70.0, 2.8052},
      {"TR-55 example 2-2 (reference J5, from memory)", 6.0, 75.0, 3.2821},
      {"reference J5, computed", 3.0, 80.0, 1.2500},
      {"reference J5, computed", 2.0, 80.0, 0.5625},
      {"reference J5, computed", 1.2, 60.0, 0.0},
  }));
  CAPTURE(row.source, row.rain_in, row.curve_number);
  CHECK(day_runoff_mm(row.rain_in * mm_per_inch, row.curve_number) / mm_per_inch ==
        Approx(row.runoff_in).epsilon(0.0).margin(1e-4));
}

TEST_CASE("three inches on ten acres at 80 give the published water", "[reference]") {
  // Reference J5: 1.25 in on 10 ac is 1.0417 acre-ft; 1 acre-ft 1233.48183754752 m3, 1 acre
  // 4046.8564224 m2.
  const double water_m3 = day_runoff_mm(76.2, 80.0) * 1e-3 * 10.0 * 4046.8564224;
  CHECK(water_m3 / 1233.48183754752 == Approx(1.0417).epsilon(1e-4));
}

TEST_CASE("runoff is never negative, never above the rain, and grows with rain and number",
          "[law]") {
  std::mt19937 random(20261125);
  std::uniform_real_distribution<double> rain(0.0, 300.0);
  std::uniform_real_distribution<double> number(0.0, 100.0);
  for (int turn = 0; turn < 5000; ++turn) {
    const double rain_mm = rain(random);
    const double curve_number = number(random);
    CAPTURE(rain_mm, curve_number);
    const double runoff_mm = day_runoff_mm(rain_mm, curve_number);
    REQUIRE(runoff_mm >= 0.0);
    REQUIRE(runoff_mm <= rain_mm);
    REQUIRE(day_runoff_mm(rain_mm + 1.0, curve_number) >= runoff_mm);
    REQUIRE(day_runoff_mm(rain_mm, curve_number + 0.5) >= runoff_mm);
  }
  CHECK(day_runoff_mm(40.0, 100.0) == Approx(40.0));  // a roof
  CHECK(day_runoff_mm(40.0, 0.0) == 0.0);
  CHECK(day_runoff_mm(0.0, 100.0) == 0.0);
}

TEST_CASE("a month's rain in nine equal days runs off less than as one storm") {
  // S = 25400/75 - 254 = 84.667 mm, a fifth 16.933. One storm: (90 - 16.933)^2 / (90 + 67.733) =
  // 33.847 mm. 10 mm a day stays below the fifth.
  CHECK(day_runoff_mm(90.0, 75.0) == Approx(33.847).epsilon(1e-4));
  CHECK(month_runoff_mm(90.0, 9.0, 75.0) == 0.0);
  // Three days of 30 mm: 3 (30 - 16.933)^2 / (30 + 67.733) = 5.241 mm.
  CHECK(month_runoff_mm(90.0, 3.0, 75.0) == Approx(5.241).epsilon(1e-3));
  CHECK(month_runoff_mm(90.0, 1.0, 75.0) == day_runoff_mm(90.0, 75.0));
  CHECK(month_runoff_mm(90.0, 0.0, 75.0) == 0.0);
}

TEST_CASE("uneven days never run off less than equal ones, nor more than one storm", "[law]") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> depth(0.0, 60.0);
  for (int turn = 0; turn < 2000; ++turn) {
    double rain_mm = 0.0;
    double runoff_mm = 0.0;
    const int days = 1 + turn % 12;
    for (int day = 0; day < days; ++day) {
      const double day_mm = depth(random);
      rain_mm += day_mm;
      runoff_mm += day_runoff_mm(day_mm, 78.0);
    }
    CAPTURE(days, rain_mm);
    REQUIRE(month_runoff_mm(rain_mm, days, 78.0) <= runoff_mm + 1e-9);
    REQUIRE(runoff_mm <= day_runoff_mm(rain_mm, 78.0) + 1e-9);
  }
}

}  // namespace
}  // namespace leat::hydrology
