// Why a season has no answer, in words.
#include "render/words/season_problems.h"

#include <catch2/catch.hpp>

namespace leat::render {

TEST_CASE("a season that cannot be run is told with the way to mend it") {
  for (const solver::SeasonProblem& problem :
       {solver::SeasonProblem(solver::StepOutOfRange{}),
        solver::SeasonProblem(solver::EndsBeforeItBegins{{2026, 6, 2}, {2026, 6, 1}}),
        solver::SeasonProblem(solver::SeasonTooLong{})}) {
    CHECK(season_diagnostic(problem).code == "bad-value");
    CHECK_FALSE(season_diagnostic(problem).hint.empty());
  }
  CHECK(season_diagnostic(solver::EndsBeforeItBegins{{2026, 6, 2}, {2026, 6, 1}}).text ==
        "the season ends on 2026-06-01, before it begins on 2026-06-02");
}

TEST_CASE("a spring that is none is answered with the nearest name, or with all of them") {
  const auto told = [](const std::string& name, std::vector<std::string> springs) {
    return season_diagnostic(solver::UnknownSpring{name, std::move(springs)});
  };
  CHECK(told("sprong", {"spring"}).text == "the farm has no spring 'sprong'");
  CHECK(told("sprong", {"spring"}).hint == "did you mean 'spring'?");
  CHECK(told("x", {"upper box", "lower box"}).hint == "its springs: upper box, lower box");
  CHECK(told("x", {}).hint == "the farm has no spring");
}

TEST_CASE("what the file itself leaves open is told in the loader's words") {
  model::Diagnostic of_the_file;
  of_the_file.code = "not-solved-yet";
  of_the_file.text = "size: choose on pipe 'line': there is no size to solve with";
  of_the_file.position = {7, 3};
  const model::Diagnostic problem = season_diagnostic(of_the_file);
  CHECK(problem.code == of_the_file.code);
  CHECK(problem.text == of_the_file.text);
  CHECK(problem.position.line == 7);
}

TEST_CASE("a step without a balance is told by its day and hour, in the farm's file") {
  const auto problems = season_diagnostics(
      {solver::NoBalance{{2026, 8, 12}, 5400.0, "it does not settle"}}, "a.yaml");
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].file == "a.yaml");
  CHECK(problems[0].text ==
        "no balance of heads and flows was found on 2026-08-12 at 1.5 h: it does not settle");
}

}  // namespace leat::render
