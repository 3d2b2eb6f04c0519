// A solve that begins where the last one ended finds the same water.
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/flow/carried_start.h"
#include "solver/flow/status_changes.h"
#include "solver/network/pipes_by_place.h"
#include "tests/support/random_farm.h"

namespace leat::solver {

TEST_CASE(
    "Flows are the same whether tees opened to the air are solved from nothing or from before") {
  int opened_farms = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    const model::Farm farm = tests::random_farm(seed, tests::FarmKind::Everything);
    const Surroundings around = surroundings_of(farm, std::nullopt);
    NetworkOptions options;
    const FlowState before = solve_flow(farm, around, options);
    REQUIRE(before.solution.report.is_usable());
    for (const DrawingTee& tee : tees_that_draw_air(before)) {
      options.opened_tees.insert(tee.tee);
    }
    if (options.opened_tees.empty()) {
      continue;
    }
    ++opened_farms;
    const FlowState cold = solve_flow(farm, around, options);
    const FlowState carried = solve_flow(farm, around, options, &before);
    REQUIRE(cold.solution.report.is_usable());
    REQUIRE(carried.solution.report.is_usable());
    for (std::size_t pipe = 0; pipe < farm.pipes.size(); ++pipe) {
      INFO("seed " << seed << ", " << farm.pipes[pipe].name);
      // A micrometre of head in a flat, wide pipe is a millilitre a minute.
      CHECK(carried.pipe_flow_m3_s(pipe) == Approx(cold.pipe_flow_m3_s(pipe)).margin(1e-7));
    }
  }
  CHECK(opened_farms > 50);
}

TEST_CASE("Every pipe is found at both of its places and nowhere else") {
  const model::Farm farm = tests::random_farm(5, tests::FarmKind::Everything);
  const PipesByPlace pipes_of(farm);
  std::size_t listed = 0;
  for (std::size_t place = 0; place < farm.places.size(); ++place) {
    std::size_t last = 0;
    for (const std::size_t pipe : pipes_of.at(place)) {
      CHECK((farm.pipes[pipe].from == place || farm.pipes[pipe].to == place));
      CHECK(pipe >= last);
      last = pipe;
      ++listed;
    }
  }
  CHECK(listed == 2 * farm.pipes.size());
}

}  // namespace leat::solver
