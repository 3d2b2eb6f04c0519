#include "solver/hydrology/ram.h"

#include <optional>

#include <catch2/catch.hpp>

namespace leat::hydrology {
namespace {

TEST_CASE("the two efficiencies of a ram are as in the examination problem", "[reference]") {
  // Reference E6.1: 30 L/s at 4 m, 3 L/s to 18 m above the ram: 45.0 % and 38.9 %.
  CHECK(daubuisson_efficiency(0.030, 4.0, 0.003, 18.0) == Approx(0.450).epsilon(1e-3));
  CHECK(rankine_efficiency(0.030, 4.0, 0.003, 18.0) == Approx(0.389).epsilon(1e-3));
}

TEST_CASE("a ram of stated efficiency delivers what the worksheet says", "[reference]") {
  // Reference E6.3: 65 L/min falling 10 m, lifted to 22 m, efficiency 0.60: 17.73 L/min.
  CHECK(65.0 * ram_share(22.0 / 10.0, 0.60).share == Approx(17.73).epsilon(5e-4));
}

TEST_CASE("the trade table is read straight between its rows", "[reference]") {
  // Reference E6.2: 4 72, 6 61, 10 44, 24 4, 26 0 percent.
  CHECK(ram_efficiency(4.0) == Approx(0.72));
  CHECK(ram_efficiency(5.0) == Approx(0.665));
  CHECK(ram_efficiency(10.0) == Approx(0.44));
  CHECK(ram_efficiency(25.0) == Approx(0.02));
  CHECK(ram_efficiency(26.0) == 0.0);
  CHECK(ram_efficiency(40.0) == 0.0);
  CHECK(ram_efficiency(2.0) == Approx(0.72));
  // The rule beside the table, a seventh of the supply to five times the fall, within a tenth.
  CHECK(ram_share(5.0, std::nullopt).share == Approx(1.0 / 7.0).epsilon(0.1));
}

TEST_CASE("a ram lifts a smaller share the higher it must, and its slope is exact", "[law]") {
  for (const std::optional<double> efficiency :
       {std::optional<double>(), std::optional<double>(0.5)}) {
    double before = 1.0;
    for (int step = 1; step < 300; ++step) {
      const double ratio = 0.1 * step + 0.013;  // between the corners
      const RamShare now = ram_share(ratio, efficiency);
      CAPTURE(ratio);
      REQUIRE(now.share >= 0.0);
      REQUIRE(now.share <= before);
      // Energy: what is lifted never exceeds what fell.
      REQUIRE(now.share * ratio <= 1.0);
      const double half = 1e-6;
      const double difference =
          (ram_share(ratio + half, efficiency).share - ram_share(ratio - half, efficiency).share) /
          (2.0 * half);
      REQUIRE(now.slope_per_ratio == Approx(difference).epsilon(1e-5).margin(1e-9));
      before = now.share;
    }
  }
}

}  // namespace
}  // namespace leat::hydrology
