// Published sizing examples: bulletins and factsheets for stock water pipelines.
#include <cmath>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "solver/flow/place_answers.h"
#include "solver/size/size.h"
#include "solver/size/size_choice.h"
#include "tests/support/farm_text.h"

namespace leat {
namespace {

constexpr double imperial_gallon_m3 = 4.54609e-3;
const char* const bulletin_prices =
    "prices: {3/4 in SIDR 15: 1 per ft, 1 in SIDR 15: 2 per ft, 1-1/4 in SIDR 15: 3 per ft, "
    "1-1/2 in SIDR 15: 4 per ft, 2 in SIDR 15: 5 per ft}\n";

}  // namespace

TEST_CASE("Ten gallons a minute over a fall of 30 ft in 1000 ft take 295.8 ft of 1 in pipe",
          "[size][reference]") {
  // A2.3e: method of BC Ministry of Agriculture and Lands, Livestock Watering Factsheet 590.304-5
  // (Jan 2006); Hazen-Williams C 140, 6.237 and 1.640 ft in 100 ft. L1 = (H - L S2)/(S1 - S2).
  solver::SizeChoice choice;
  choice.runs.push_back({feet(1000.0).in_si(), {{0, 100.0}, {1, 160.0}}});
  choice.limits.push_back({feet(30.0).in_si(), {{0, {feet(62.37).in_si(), feet(16.40).in_si()}}}});
  const solver::ChosenSizes chosen = solver::choose_sizes(choice, solver::PartsOfRun::TwoSizes);
  REQUIRE(chosen.ending == solver::ProgramEnding::Solved);
  CHECK(1000.0 * chosen.share.at(0).at(0) == Approx(295.8).margin(0.1));
  CHECK(1000.0 * chosen.share.at(0).at(1) == Approx(704.2).margin(0.1));
}

TEST_CASE("Six gallons a minute at 3 ft in 1000 ft take 1-1/2 in pipe", "[size][reference]") {
  // A2.3c: New Mexico State University Guide B-810, "Sizing Plastic Pipelines for Water on the
  // Range", Example B picks 1-1/2 in. By Darcy that carries 5.81 gal/min at 15 C, by C 140 5.99:
  // the bulletin's chart is that coarse, so the wish is put as what Darcy lets through.
  solver::SizeOptions options;
  options.one_size = true;
  const model::Farm farm = tests::farm_of(fmt::format(
      "farm: bulletin\nsite: {{water: 15 C}}\nshow: US\ncreeks: {{pool: {{surface: 103 ft}}}}\n"
      "outlets: {{end: {{level: 100 ft, wished: 5.8 gal/min}}}}\n"
      "pipes: {{run: {{from: pool, to: end, size: choose, length: 1000 ft, entrance: 0, exit: "
      "0}}}}\n{}",
      bulletin_prices));
  const solver::SizePlan plan = solver::size_plan(farm, options);
  CHECK(plan.runs.at(0).parts.at(0).size.text == "1-1/2 in SIDR 15");
}

TEST_CASE(
    "Eighty cow-calf pairs at 15 imperial gallons want 5 imperial gallons a minute in 4 hours",
    "[size][reference]") {
  // A2.3d: Alberta Agriculture, "Pasture Pipeline Design" (Agdex 716), steps 1 and 2.
  const model::Farm farm = tests::farm_of(
      "farm: pasture\ncreeks: {pool: {surface: 10 m}}\n"
      "troughs: {herd: {float: 2 m, need: 1200 imp gal/day, within: 240 min}}\n"
      "pipes: {run: {from: pool, to: herd, size: 1 in SIDR 15, length: 100 m}}\n");
  const double need_m3_s = *solver::need_of(farm, farm.places.at(1), std::nullopt);
  CHECK(80.0 * 15.0 == 1200.0);
  CHECK(need_m3_s * 60.0 / imperial_gallon_m3 == Approx(5.0).epsilon(1e-12));
  CHECK(need_m3_s * 60.0 / 3.785411784e-3 == Approx(6.0).margin(0.01));
}

TEST_CASE("A tenth more fall is about five and a half hundredths more water", "[size][reference]") {
  // K4: for a long pipe the flow goes as the fall to the power 0.54 to 0.57 (computed from the
  // friction laws). A fall 1 m off in 3 m is +17 % or -20 % in flow.
  const auto flow_at = [](double fall_m) {
    const tests::SolvedFarm farm = tests::solved(
        fmt::format("farm: long\nsite: {{water: 15 C}}\ncreeks: {{pool: {{surface: {} m}}}}\n"
                    "outlets: {{end: {{level: 0 m}}}}\n"
                    "pipes: {{run: {{from: pool, to: end, size: 1 in SIDR 15, length: 200 m}}}}\n",
                    fall_m));
    return farm.pipe("run").flow_m3_s;
  };
  const double power = std::log(flow_at(3.3) / flow_at(3.0)) / std::log(1.1);
  CHECK(power > 0.54);
  CHECK(power < 0.575);
  CHECK(flow_at(4.0) / flow_at(3.0) - 1.0 == Approx(0.17).margin(0.01));
  CHECK(flow_at(2.0) / flow_at(3.0) - 1.0 == Approx(-0.20).margin(0.01));
}

}  // namespace leat
