// Which numbers of a farm are drawn, and what a drawn farm keeps.
#include "solver/uncertainty/uncertain_inputs.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/uncertainty/measurement_error.h"
#include "solver/uncertainty/sampled_farm.h"
#include "solver/uncertainty/spread_figures.h"
#include "tests/support/farm_text.h"

namespace leat::solver {

namespace {

const char* const hill_farm = R"(
farm: Hill
springs:
  upper: {overflow: 131.5 ft, intake: 130.5 ft, yield: {Apr: 9 gal/min, Aug: 0.9 gal/min}}
ponds:
  house pond: {surface: 104 ft}
troughs:
  north: {float: 108 ft, herd: {dry beef cow: 24}, within: 6 h, seat: 6 mm}
tees:
  gate tee: 112 ft
pipes:
  main:
    from: upper
    to: gate tee
    size: 1 in SIDR 15
    path: [[0 ft, 130.5 ft], [120 ft, 127 ft], [180 ft, 129 ft], [340 ft, 112 ft]]
    fittings: [strainer, 2 elbow]
  to north: {from: gate tee, to: north, size: 3/4 in SIDR 15, length: 420 ft}
  to pond: {from: gate tee, to: house pond, size: 3/4 in SIDR 15, length: 200 ft, ends: 106 ft, valve: {type: gate, open: 3/8, at: end}}
)";

const UncertainInput& input_named(const std::vector<UncertainInput>& inputs,
                                  const std::string& name) {
  const auto found = std::find_if(inputs.begin(), inputs.end(), [&](const UncertainInput& input) {
    return input.name == name;
  });
  REQUIRE(found != inputs.end());
  return *found;
}

}  // namespace

TEST_CASE("The place's instrument comes before the farm's") {
  model::Farm farm = tests::farm_of(hill_farm);
  farm.surveyed_with = model::Instrument::BuildersLevel;
  farm.places[3].surveyed_with = model::Instrument::Phone;  // the tee
  const std::vector<UncertainInput> inputs = uncertain_inputs(farm, model::Month::Aug);
  CHECK(input_named(inputs, "level of gate tee").deviation == Approx(12.5 / half_width_95));
  CHECK(input_named(inputs, "level of north").deviation ==
        Approx(0.01 * 0.3048 * std::sqrt(420.0 / 125.0) / half_width_95));
}

TEST_CASE("Every measured number of a farm is drawn once") {
  const model::Farm farm = tests::farm_of(hill_farm);
  std::vector<std::string> names;
  for (const UncertainInput& input : uncertain_inputs(farm, model::Month::Aug)) {
    names.push_back(input.name);
  }
  CHECK(names == std::vector<std::string>{"level of upper",
                                          "yield of upper",
                                          "level of house pond",
                                          "level of north",
                                          "seat of north",
                                          "need of north",
                                          "level of gate tee",
                                          "levels along main",
                                          "levels along main",
                                          "length of main",
                                          "roughness of main",
                                          "fittings of main",
                                          "length of to north",
                                          "roughness of to north",
                                          "end of to pond",
                                          "length of to pond",
                                          "roughness of to pond",
                                          "fittings of to pond",
                                          "air pressure"});
}

TEST_CASE("A pipe's end keeps its height over the place where it ends in every draw") {
  const model::Farm farm = tests::farm_of(hill_farm);
  const std::vector<UncertainInput> inputs = uncertain_inputs(farm, model::Month::Aug);
  for (std::uint64_t draw = 0; draw < 50; ++draw) {
    const model::Farm drawn = drawn_farm(farm, inputs, 7, draw);
    const auto& spring = std::get<model::Spring>(drawn.places[0].data);
    const auto& tee = std::get<model::Tee>(drawn.places[3].data);
    const model::Pipe& main = drawn.pipes[0];
    CHECK(in_metres(main.path.front().elevation) == Approx(in_metres(spring.intake)));
    CHECK(in_metres(main.path.back().elevation) == Approx(in_metres(tee.elevation)));
    CHECK(in_metres(spring.overflow - spring.intake) == Approx(0.3048));
    CHECK(in_metres(main.length) > 0.0);
    // All months of a yield change alike.
    const double april = in_cubic_metres_per_second(spring.yield.at(model::Month::Apr));
    const double august = in_cubic_metres_per_second(spring.yield.at(model::Month::Aug));
    CHECK(april / august == Approx(10.0));
  }
}

TEST_CASE("A farm drawn with no error is the farm as written") {
  const model::Farm farm = tests::farm_of(hill_farm);
  std::vector<UncertainInput> inputs = uncertain_inputs(farm, model::Month::Aug);
  for (UncertainInput& input : inputs) {
    input.deviation = 0.0;
  }
  const model::Farm drawn = drawn_farm(farm, inputs, 3, 9);
  SteadyOptions options;
  options.month = model::Month::Aug;
  const SteadyAnswer as_drawn = solve_steady(drawn, options);
  const SteadyAnswer as_written = solve_steady(farm, options);
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    CHECK(as_drawn.pipes[i].flow_m3_s == Approx(as_written.pipes[i].flow_m3_s).epsilon(1e-12));
  }
}

TEST_CASE("A draw does not remember the one before it") {
  const model::Farm farm = tests::farm_of(hill_farm);
  const std::vector<UncertainInput> inputs = uncertain_inputs(farm, model::Month::Aug);
  model::Farm used = farm;
  draw_into(used, farm, inputs, 1, 5);
  draw_into(used, farm, inputs, 1, 6);
  const model::Farm fresh = drawn_farm(farm, inputs, 1, 6);
  CHECK(used.pipes[0].path[1].elevation == fresh.pipes[0].path[1].elevation);
  CHECK(used.pipes[2].fittings.size() == fresh.pipes[2].fittings.size());
  CHECK(used.pipes[2].fittings.back().loss_coefficient ==
        fresh.pipes[2].fittings.back().loss_coefficient);
  CHECK(used.site.air_pressure == fresh.site.air_pressure);
}

TEST_CASE("Deviates are normal, and those of different draws and inputs have no bond") {
  std::vector<double> some;
  std::vector<double> others;
  std::vector<double> next_draw;
  for (std::uint64_t draw = 0; draw < 20000; ++draw) {
    some.push_back(normal_deviate(1, draw, 0));
    others.push_back(normal_deviate(1, draw, 1));
    next_draw.push_back(normal_deviate(1, draw + 1, 0));
  }
  const Moments moments = moments_of(some);
  // Standard errors at 20 000 draws: 0.007 of the mean, 0.01 of the variance.
  CHECK(moments.mean == Approx(0.0).margin(0.03));
  CHECK(moments.variance == Approx(1.0).margin(0.04));
  CHECK(explained_share(some, others) < 1e-3);
  CHECK(explained_share(some, next_draw) < 1e-3);
  // Of normal deviates 95 in 100 lie within 1.96: tables of the normal distribution.
  std::vector<double> ordered = some;
  CHECK(percentile(ordered, 0.025) == Approx(-1.96).margin(0.05));
  CHECK(percentile(ordered, 0.975) == Approx(1.96).margin(0.05));
}

TEST_CASE("The normal distribution is turned round to a billionth") {
  // Tables of the normal distribution (from memory).
  CHECK(normal_quantile(0.5) == Approx(0.0).margin(1e-12));
  CHECK(normal_quantile(0.975) == Approx(1.959963984540054).epsilon(1e-12));
  CHECK(normal_quantile(0.95) == Approx(1.644853626951473).epsilon(1e-12));
  CHECK(normal_quantile(0.001) == Approx(-3.090232306167813).epsilon(1e-12));
  for (double p = 1e-6; p < 1.0; p += 0.0101) {
    CHECK(0.5 * std::erfc(-normal_quantile(p) / std::sqrt(2.0)) == Approx(p).epsilon(1e-12));
  }
}

}  // namespace leat::solver
