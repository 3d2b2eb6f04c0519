// Large schemes: the steps to the answer hardly grow with the farm, and the answer obeys the laws.
#include "tests/support/large_scheme.h"

#include <catch2/catch.hpp>

#include "solver/flow/flow_state.h"
#include "tests/support/water_laws.h"

namespace leat::tests {

TEST_CASE("A scheme of 10 000 places is in balance within 40 steps, whatever its shape") {
  for (const SchemeShape shape : {SchemeShape::Bush, SchemeShape::Comb, SchemeShape::Ribbon}) {
    const model::Farm farm = large_scheme(10000, shape, 1);
    REQUIRE(farm.places.size() > 9000);
    const solver::Surroundings around = solver::surroundings_of(farm, std::nullopt);
    const solver::FlowState state = solver::solve_flow(farm, around, {});
    REQUIRE(state.solution.report.is_usable());
    CHECK(state.solution.report.iterations <= 40);
    CHECK(state.solution.report.symmetric);
    const auto broken = broken_law(state);
    INFO(broken.value_or(""));
    CHECK_FALSE(broken);
  }
}

}  // namespace leat::tests
