#include "render/commands/new/starter_file.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "model/keys/farm_file.h"
#include "solver/steady/steady.h"

namespace leat::render {

TEST_CASE("the starter farm loads without a single problem and every month of it solves") {
  const model::LoadedFarm loaded = model::load_farm(starter_file(), "starter.yaml");
  for (const model::Diagnostic& problem : loaded.problems) {
    UNSCOPED_INFO(problem.position.line << ": " << problem.text);
  }
  CHECK(loaded.problems.empty());
  REQUIRE(loaded.farm);
  for (int month = 0; month < 12; ++month) {
    solver::SteadyOptions options;
    options.month = static_cast<model::Month>(month);
    CAPTURE(month);
    CHECK(solver::solve_steady(*loaded.farm, options).converged);
  }
}

TEST_CASE("in its driest month the starter farm fills every trough and nothing is amiss") {
  const model::LoadedFarm loaded = model::load_farm(starter_file(), "starter.yaml");
  REQUIRE(loaded.farm);
  const solver::SteadyAnswer answer = solver::solve_steady(*loaded.farm, {});
  CHECK(answer.month == model::Month::Aug);
  for (const solver::Finding& flag : answer.flags) {
    CAPTURE(solver::word_of(flag.code), flag.where);
    CHECK(flag.severity == solver::Severity::Note);
  }
}

TEST_CASE("the starter farm fits a screen eighty columns wide") {
  std::size_t longest = 0;
  const std::string text = starter_file();
  for (std::size_t start = 0; start < text.size();) {
    const std::size_t end = text.find('\n', start);
    longest = std::max(longest, end - start);
    start = end + 1;
  }
  CHECK(longest <= 80);
}

}  // namespace leat::render
