// Farms beside each other, held against what each says alone.
#include "solver/compare/compare.h"

#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/compare/differences.h"
#include "tests/support/farm_text.h"

namespace leat::solver {

namespace {

/// The first difference of a kind; null without one.
template <class Thing>
const Thing* difference_of(const std::vector<Difference>& all) {
  for (const Difference& difference : all) {
    if (const auto* const thing = std::get_if<Thing>(&difference.what)) {
      return thing;
    }
  }
  return nullptr;
}

}  // namespace

TEST_CASE("water got is what troughs and outlets are handed and met is its share of all needs",
          "[compare]") {
  const model::Farm farm = tests::farm_of(
      "farm: Croft\n"
      "springs: {well: {overflow: 30 m, yield: 3 L/min}}\n"
      "tees: {fork: 12 m}\n"
      "troughs: {a: {float: 10 m, need: 3 L/min}, b: {float: 10 m, need: 3 L/min}}\n"
      "pipes:\n"
      "  main: {from: well, to: fork, size: {bore: 26 mm}, length: 60 m}\n"
      "  to a: {from: fork, to: a, size: {bore: 20 mm}, length: 40 m}\n"
      "  to b: {from: fork, to: b, size: {bore: 20 mm}, length: 40 m}\n");
  const Comparison found = compare_farms({&farm, &farm}, {});
  REQUIRE(found.farms.size() == 2);
  // The spring's 3 L/min of the 6 that are needed.
  CHECK(found.farms[0].flow_m3_s == Approx(3e-3 / 60.0).epsilon(1e-6));
  CHECK(found.farms[0].met.value() == Approx(0.5).epsilon(1e-6));
  CHECK(found.farms[0].parts.floats == 2);
  CHECK(found.farms[0].energy_kWh.value() == 0.0);
  CHECK(found.farms[0].wasted_m3.value() == 0.0);
  const auto all = differences({&farm, &farm}, found);
  REQUIRE(all.size() == 1);
  CHECK(all[0].farm == 1);
  CHECK(std::holds_alternative<NothingDiffers>(all[0].what));
}

TEST_CASE("a wider pipe is told by the trough that gains and by the pipe it takes", "[compare]") {
  const auto text = [](const std::string& bore) {
    return "farm: Croft\n"
           "springs: {well: {overflow: 12 m, yield: 30 L/min}}\n"
           "troughs: {low: {float: 10 m, need: 9 L/min}}\n"
           "pipes: {line: {from: well, to: low, size: " +
           bore + ", length: 300 m}}\n";
  };
  const model::Farm thin = tests::farm_of(text("20 mm PE100 SDR 11"));
  const model::Farm wide = tests::farm_of(text("40 mm PE100 SDR 11"));
  const Comparison found = compare_farms({&thin, &wide}, {});
  CHECK(found.farms[0].met.value() < 0.9);
  CHECK(found.farms[1].met.value() == Approx(1.0).epsilon(1e-6));
  const auto all = differences({&thin, &wide}, found);
  const auto* const gets = difference_of<PlaceGets>(all);
  REQUIRE(gets != nullptr);
  CHECK(gets->place == "low");
  CHECK(gets->here_m3_s == Approx(9e-3 / 60.0).epsilon(1e-6));
  CHECK(gets->there_m3_s < gets->here_m3_s);
  CHECK(gets->met.value() >= met_limit);
  const auto* const pipe = difference_of<PipeDiffers>(all);
  REQUIRE(pipe != nullptr);
  REQUIRE(pipe->sizes.size() == 2);
  CHECK(pipe->sizes[0].size == "20 mm PE100 SDR 11");
  CHECK(pipe->sizes[0].more_m == Approx(-300.0));
  CHECK(pipe->sizes[1].more_m == Approx(300.0));
  const auto* const flag = difference_of<FlagDiffers>(all);
  REQUIRE(flag != nullptr);
  CHECK_FALSE(flag->is_here);
  CHECK(flag->severity == Severity::Caution);
  CHECK(flag->code == Code::Starved);
  CHECK(flag->where == "low");
}

TEST_CASE("all farms are solved for the driest month of the first that has one", "[compare]") {
  const auto text = [](const std::string& yield) {
    return "farm: Croft\n"
           "springs: {well: {overflow: 30 m, yield: " +
           yield +
           "}}\n"
           "troughs: {low: {float: 10 m, need: 2 L/min}}\n"
           "pipes: {line: {from: well, to: low, size: {bore: 26 mm}, length: 60 m}}\n";
  };
  const model::Farm even = tests::farm_of(text("9 L/min"));
  const model::Farm summer = tests::farm_of(text("{Jan: 9 L/min, Jul: 4 L/min}"));
  const model::Farm winter = tests::farm_of(text("{Jan: 3 L/min, Jul: 9 L/min}"));
  CHECK(compare_farms({&even, &summer, &winter}, {}).farms[2].answer.month ==
        compare_farms({&even, &summer, &winter}, {}).month);
  CHECK(compare_farms({&winter, &summer}, {}).month == model::Month::Jan);
  CompareOptions asked;
  asked.month = model::Month::Apr;
  CHECK(compare_farms({&winter, &summer}, asked).farms[1].answer.month == model::Month::Apr);
}

TEST_CASE("what falls short never reads 100 %", "[compare]") {
  CHECK(percent_met(0.9949) == 99.0);
  CHECK(percent_met(1.0) == 100.0);
  CHECK(percent_met(0.0) == 0.0);
}

}  // namespace leat::solver
