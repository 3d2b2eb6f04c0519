// How sure an answer is: against closed forms, and against itself solved otherwise.
#include "solver/uncertainty/spread.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/uncertainty/sample_solver.h"
#include "solver/uncertainty/sampled_farm.h"
#include "solver/uncertainty/spread_figures.h"
#include "tests/support/farm_text.h"

namespace leat::solver {

namespace {

/// A short fall, so that the levels decide: 3 m over a long pipe into a pond.
const char* const long_line = R"(
farm: Long line
creeks:
  creek: {surface: 103 m}
ponds:
  pond: {surface: 100 m}
pipes:
  line: {from: creek, to: pond, size: {bore: 26 mm, friction factor: 0.03}, length: 300 m}
)";

std::string two_troughs(const char* high_float) {
  return std::string(R"(
farm: Two troughs
surveyed by: us
springs:
  spring: {overflow: 110 m, intake: 109 m, yield: 30 L/min}
tees:
  tee: 104 m
troughs:
  low: {float: 100 m, need: 3 L/min}
  high: {float: )") +
         high_float + R"(, need: 3 L/min}
pipes:
  main: {from: spring, to: tee, size: 25 mm PE100 SDR 11, length: 250 m}
  to low: {from: tee, to: low, size: 20 mm PE100 SDR 11, length: 60 m}
  to high: {from: tee, to: high, size: 20 mm PE100 SDR 11, length: 100 m}
)";
}

Spread spread_with(const model::Farm& farm,
                   int draws,
                   std::uint64_t seed = 1,
                   unsigned threads = 0) {
  SpreadOptions options;
  options.draws = draws;
  options.seed = seed;
  options.threads = threads;
  return spread_of(farm, options);
}

double share_of(const Spread& spread, const std::string& input) {
  for (const Cause& cause : spread.causes) {
    if (cause.input == input) {
      return cause.share;
    }
  }
  return 0.0;
}

}  // namespace

TEST_CASE("Percentiles lie straight between the two nearest values") {
  // Hyndman and Fan 1996, type 7.
  std::vector<double> values = {5.0, 1.0, 3.0, 2.0, 4.0};
  CHECK(percentile(values, 0.5) == 3.0);
  CHECK(percentile(values, 0.05) == Approx(1.2));
  CHECK(percentile(values, 0.95) == Approx(4.8));
  std::vector<double> one = {7.0};
  CHECK(percentile(one, 0.95) == 7.0);
}

TEST_CASE("A line explains all of what follows it and half of what it makes half of") {
  std::vector<double> x;
  std::vector<double> both;
  for (int i = 0; i < 400; ++i) {
    x.push_back(std::sin(1.0 + i * 1.7));
    both.push_back(x.back() + std::sin(2.0 + i * 2.9));
  }
  CHECK(explained_share(x, x) == Approx(1.0));
  CHECK(explained_share(both, x) == Approx(0.5).margin(0.02));
  CHECK(explained_share(std::vector<double>(400, 2.0), x) == 0.0);
}

TEST_CASE("Of many inputs and few draws only what really moves the answer is told") {
  const auto deviates_of = [](std::uint64_t seed) {
    std::vector<std::vector<double>> rows(50);
    for (std::size_t input = 0; input < rows.size(); ++input) {
      for (std::uint64_t draw = 0; draw < 100; ++draw) {
        rows[input].push_back(normal_deviate(seed, draw, input));
      }
    }
    return rows;
  };
  SECTION("Two that move it are found, with the shares that variances add up to") {
    const auto rows = deviates_of(3);
    std::vector<double> values;
    for (std::size_t draw = 0; draw < 100; ++draw) {
      values.push_back(7.0 + 2.0 * rows[11][draw] - rows[30][draw]);
    }
    const std::vector<ExplainingInput> found = explaining_inputs(values, rows);
    REQUIRE(found.size() == 2);
    CHECK(found[0].input == 11);
    CHECK(found[1].input == 30);
    CHECK(found[0].share == Approx(0.8).margin(0.1));
    CHECK(found[0].share + found[1].share == Approx(1.0));
  }
  SECTION("Where none moves it one is told in some five of a hundred cases") {
    int told = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
      const auto rows = deviates_of(seed);
      std::vector<double> values;
      for (std::uint64_t draw = 0; draw < 100; ++draw) {
        values.push_back(normal_deviate(seed, draw, 1000));
      }
      told += explaining_inputs(values, rows).empty() ? 0 : 1;
    }
    CHECK(told >= 2);
    CHECK(told <= 25);
  }
  SECTION("Of fewer than ten draws, and of values that are all the same, nothing is told") {
    CHECK(explaining_inputs(std::vector<double>{1.0, 2.0}, {{0.1, 0.2}}).empty());
    CHECK(explaining_inputs(std::vector<double>(100, 3.0), deviates_of(1)).empty());
  }
}

TEST_CASE("A metre of doubt on a three metre fall is 17 in 100 more flow or 20 less") {
  // Reference K4: q goes as the fall to the power 0.54 to 0.57, and +1 m / -1 m on 3 m is +17/-20
  // %. With a fixed friction factor the power is a half: sqrt(4/3) = 1.155, sqrt(2/3) = 0.816. The
  // fall is off by 0.608 m (1.645 standard deviations = 1 m) where each level is off by 0.43 m.
  model::Farm farm = tests::farm_of(long_line);
  SpreadOptions options;
  const SteadyState steady = solve_steady_state(farm, options.steady);
  SpreadBase base = spread_base(farm, steady.flow.options, 4);
  for (UncertainInput& input : base.inputs) {
    const bool is_level = input.input.kind == InputKind::PlaceLevel;
    input.deviation = is_level ? 1.0 / 1.6448536269514722 / std::sqrt(2.0) : 0.0;
  }
  DrawSolver solver(base);
  std::vector<double> flows;
  for (std::uint64_t draw = 0; draw < 6000; ++draw) {
    flows.push_back(solver.solve(draw).delivered_m3_s[1]);
  }
  const double likely = percentile(flows, 0.5);
  CHECK(percentile(flows, 0.95) / likely == Approx(std::sqrt(4.0 / 3.0)).epsilon(0.01));
  CHECK(percentile(flows, 0.05) / likely == Approx(std::sqrt(2.0 / 3.0)).epsilon(0.015));
  CHECK(likely == Approx(steady.answer.places[1].delivered_m3_s).epsilon(0.01));
}

TEST_CASE(
    "A level known to two metres makes more of the spread than a length known to two in 100") {
  // Closed form: q = sqrt(fall / length) times a number, so ln q moves by half of either's.
  model::Farm farm = tests::farm_of(long_line);
  farm.places[0].surveyed_with = model::Instrument::HandLevel;
  farm.places[1].surveyed_with = model::Instrument::BuildersLevel;
  const Spread spread = spread_with(farm, 4000);
  REQUIRE(!spread.causes.empty());
  const double level = 0.1 * 0.3048 * std::sqrt(300.0 / (50.0 * 0.3048)) / 3.0;
  const double builder = 0.01 * 0.3048 * std::sqrt(300.0 / (125.0 * 0.3048)) / 3.0;
  const double length = std::log(1.02);
  const double factor = std::log(1.03);
  const double sum = level * level + builder * builder + length * length + factor * factor;
  CHECK(share_of(spread, "level of creek") == Approx(level * level / sum).margin(0.03));
  CHECK(share_of(spread, "roughness of line") == Approx(factor * factor / sum).margin(0.03));
  CHECK(share_of(spread, "length of line") == Approx(length * length / sum).margin(0.03));
  CHECK(spread.causes.front().input == "level of creek");
}

TEST_CASE("The same seed gives the same spread on one thread and on many") {
  const model::Farm farm = tests::farm_of(two_troughs("107 m"));
  const Spread one = spread_with(farm, 200, 5, 1);
  const Spread many = spread_with(farm, 200, 5, 7);
  const Spread other = spread_with(farm, 200, 6, 1);
  REQUIRE(one.places.size() == many.places.size());
  for (std::size_t i = 0; i < one.places.size(); ++i) {
    CHECK(one.places[i].low_m3_s == many.places[i].low_m3_s);
    CHECK(one.places[i].likely_m3_s == many.places[i].likely_m3_s);
    CHECK(one.places[i].high_m3_s == many.places[i].high_m3_s);
    CHECK(one.places[i].chance_short == many.places[i].chance_short);
  }
  REQUIRE(one.causes.size() == many.causes.size());
  for (std::size_t i = 0; i < one.causes.size(); ++i) {
    CHECK(one.causes[i].input == many.causes[i].input);
    CHECK(one.causes[i].share == many.causes[i].share);
  }
  CHECK(one.places[3].likely_m3_s != other.places[3].likely_m3_s);
}

TEST_CASE("A trough with plenty never goes short, one above its water always does") {
  const Spread plenty = spread_with(tests::farm_of(two_troughs("101 m")), 300);
  const Spread hopeless = spread_with(tests::farm_of(two_troughs("112 m")), 300);
  const model::Farm farm = tests::farm_of(two_troughs("101 m"));
  const std::size_t high = place_named(farm, "high").value();
  CHECK(plenty.places[high].chance_short == 0.0);
  CHECK(hopeless.places[high].chance_short == 1.0);
  CHECK(hopeless.places[high].high_m3_s == 0.0);
  CHECK(share_of(plenty, "need of high") == 0.0);  // what stock drink is no doubt about the water
  CHECK_FALSE(plenty.places[place_named(farm, "tee").value()].chance_short.has_value());
  for (const PlaceSpread& place : plenty.places) {
    CHECK(place.low_m3_s <= place.likely_m3_s);
    CHECK(place.likely_m3_s <= place.high_m3_s);
  }
}

TEST_CASE("A summit near the vapour limit parts in some draws, one far from it in none") {
  const auto siphon = [](const char* summit) {
    return tests::farm_of(std::string(R"(
farm: Siphon
creeks:
  creek: {surface: 100 m}
ponds:
  pond: {surface: 97 m}
pipes:
  siphon:
    from: creek
    to: pond
    size: 32 mm PE100 SDR 11
    path: [[0 m, 99.5 m], [40 m, )") +
                          summit + " m], [80 m, 97 m]]\n");
  };
  const Spread low = spread_with(siphon("102"), 300);
  const Spread near = spread_with(siphon("108.6"), 300);
  REQUIRE(low.summits.size() == 1);
  REQUIRE(near.summits.size() == 1);
  CHECK(low.summits[0].at_m == 40.0);
  CHECK(low.summits[0].chance_parts == 0.0);
  CHECK(near.summits[0].chance_parts > 0.0);
  CHECK(near.summits[0].chance_parts < 1.0);
}

TEST_CASE("A farm that cannot be solved has no spread and says why") {
  SpreadOptions options;
  options.steady.broken = "nowhere";
  const Spread spread = spread_of(tests::farm_of(long_line), options);
  CHECK_FALSE(spread.answer.converged);
  CHECK_FALSE(spread.answer.problems.empty());
  CHECK(spread.draws == 0);
  CHECK(spread.places.empty());
}

TEST_CASE("One draw alone is low, likely and high at once and tells no causes") {
  const Spread spread = spread_with(tests::farm_of(long_line), 1);
  CHECK(spread.draws == 1);
  CHECK(spread.places[1].low_m3_s == spread.places[1].high_m3_s);
  CHECK(spread.causes.empty());
}

}  // namespace leat::solver
