#include "solver/hydrology/seepage.h"

#include <catch2/catch.hpp>

namespace leat::hydrology {
namespace {

TEST_CASE("each soil leaks within its published range", "[reference]") {
  // Reference J3: FAO table, from memory, mm/day.
  REQUIRE(soil_seepages().size() == 6);
  const auto loam = seepage_of_soil("loam");
  REQUIRE(loam);
  CHECK(loam->low_mm_per_day == 8.0);
  CHECK(loam->high_mm_per_day == 20.0);
  CHECK(middle_mm_per_day(*loam) == Approx(12.649).epsilon(1e-4));  // root of 160
  for (const SoilSeepage& row : soil_seepages()) {
    CAPTURE(row.soil);
    CHECK(row.low_mm_per_day < middle_mm_per_day(row));
    CHECK(middle_mm_per_day(row) < row.high_mm_per_day);
    CHECK(seepage_of_soil(row.soil)->low_mm_per_day == row.low_mm_per_day);
    // Boyd's 39 ponds, clay to sand: 0.5 to 59 mm/day (reference J3). Every soil has some of them.
    CHECK(row.low_mm_per_day < 59.0);
    CHECK(row.high_mm_per_day > 0.5);
  }
  CHECK_FALSE(seepage_of_soil("chalk"));
}

TEST_CASE("five centimetres a day is heavy and ten is leaky", "[reference]") {
  // Reference J3: tolerable below 5 cm/day, leaky at 10 (FAO x6705e); a quarter inch acceptable.
  CHECK(judge_seepage(6.0) == SeepageJudgement::Acceptable);
  CHECK(judge_seepage(49.0) == SeepageJudgement::Tolerable);
  CHECK(judge_seepage(50.0) == SeepageJudgement::Heavy);
  CHECK(judge_seepage(100.0) == SeepageJudgement::Leaky);
}

}  // namespace
}  // namespace leat::hydrology
