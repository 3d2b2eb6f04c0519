#include "render/words/cautions.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "tests/render/sample_farm.h"

namespace leat::render {

namespace {

bool says(const model::Farm& farm, const solver::SteadyAnswer& answer, const std::string& words) {
  const std::vector<std::string> cautions = cautions_for(farm, answer);
  return std::any_of(cautions.begin(), cautions.end(), [&words](const std::string& caution) {
    return caution.find(words) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("a line over a rise warns of starting it by mouth and one that only falls does not") {
  model::Farm farm = sample_farm();
  solver::SteadyAnswer answer = sample_answer();
  CHECK(says(farm, answer, "siphon by mouth"));
  CHECK(says(farm, answer, "Suction holds"));
  farm.pipes[0].path.clear();
  CHECK_FALSE(says(farm, answer, "siphon by mouth"));
  CHECK(says(farm, answer, "Suction holds"));
  answer.pipes[0].lowest_pressure_Pa = 0.0;
  CHECK_FALSE(says(farm, answer, "Suction holds"));
}

TEST_CASE("what a farm has decides which cautions it hears") {
  model::Farm farm = sample_farm();
  const solver::SteadyAnswer answer = sample_answer();
  CHECK(says(farm, answer, "Ask the dam-safety office before you touch a bank or spillway"));
  CHECK_FALSE(says(farm, answer, "foot valve"));
  CHECK_FALSE(says(farm, answer, "relief valve"));
  CHECK_FALSE(says(farm, answer, "air gap"));
  CHECK_FALSE(says(farm, answer, "in the sun"));
  model::Fitting foot_valve;
  foot_valve.name = "hinged foot valve";
  farm.pipes[0].fittings.push_back(foot_valve);
  farm.pipes[0].regulator = model::Regulator{};
  farm.pipes[0].lies = model::Lies::Sun;
  model::Outlet outlet;
  outlet.household = true;
  farm.places[2].data = outlet;
  CHECK(says(farm, answer, "foot valve"));
  CHECK(says(farm, answer, "relief valve"));
  CHECK(says(farm, answer, "air gap"));
  CHECK(says(farm, answer, "in the sun"));
}

TEST_CASE("the last word is always that local codes and licensed people decide") {
  CHECK(cautions_for(sample_farm(), sample_answer()).back() ==
        "Local codes and licensed people decide.");
  CHECK(cautions_for(model::Farm{}, solver::SteadyAnswer{}).size() == 1);
}

}  // namespace leat::render
