// What the first lines of the demo farms 23 and 24 promise of a season.
#include <fstream>
#include <iterator>
#include <string>

#include <catch2/catch.hpp>

#include "solver/season/season.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

std::string text_of(const std::string& name) {
  std::ifstream file(std::string(LEAT_SOURCE_DIR) + "/networks-demo/" + name);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

solver::SeasonAnswer season(const std::string& text) {
  solver::SeasonOptions options;
  options.from = model::Date{2026, 4, 1};
  options.to = model::Date{2026, 10, 31};
  return run_season(farm_of(text), options);
}

}  // namespace

TEST_CASE("23: the north trough works in the morning and goes short of an August afternoon",
          "[season]") {
  const solver::SeasonAnswer answer = season(text_of("23-dry-year.yaml"));
  REQUIRE(answer.converged);
  const solver::TroughSeason& north = answer.troughs.at(0);
  REQUIRE(north.first_dry.has_value());
  CHECK(north.first_dry->month == 8);
  CHECK(north.months.at(3).met.value() == 1.0);
  CHECK(north.met_by_hour.at(4).at(7) == Approx(1.0));
  CHECK(north.met_by_hour.at(4).at(17) < 0.9);
  // An empty tank leaves hardly any fall; which pipe takes most of that is no reason.
  REQUIRE(north.months.at(4).reason.has_value());
  CHECK(north.months.at(4).reason->supply.has_value());
  CHECK(north.months.at(4).reason->empty_tank == "ridge tank");
  CHECK_FALSE(north.months.at(4).reason->moment.has_value());
  CHECK_FALSE(answer.troughs.at(1).first_dry.has_value());
  CHECK_FALSE(answer.troughs.at(2).first_dry.has_value());
}

TEST_CASE("24: the siphon keeps the pond up, and without it sun and ground draw it down",
          "[season]") {
  const std::string text = text_of("24-pond-against-the-sun.yaml");
  const solver::SeasonAnswer kept = season(text);
  REQUIRE(kept.converged);
  CHECK(kept.ponds.at(0).lowest_m > 53.1);
  std::string shut = text;
  const std::string open = "open: 1/3";
  REQUIRE(shut.find(open) != std::string::npos);
  shut.replace(shut.find(open), open.size(), "shut: yes");
  const solver::SeasonAnswer alone = season(shut);
  REQUIRE(alone.converged);
  CHECK(alone.ponds.at(0).levels.back().level_m < 52.2);
  CHECK(alone.ponds.at(0).evaporation_m3 + alone.ponds.at(0).seepage_m3 >
        alone.ponds.at(0).rain_m3);
}

}  // namespace leat::tests
