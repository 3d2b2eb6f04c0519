// Why there is no profile, as a person reads it.
#include "render/words/profile_problems.h"

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::render {
namespace {

// Two ways from the creek to the far tee, over one tee each, and a branch to a pond.
constexpr const char* ring = R"(
farm: ring
creeks: {c: {surface: 100 m}, lone: {surface: 90 m}}
tees: {left: 90 m, right: 90 m, far: 85 m}
ponds: {p: {surface: 80 m}, q: {surface: 70 m}}
pipes:
  a: {from: c, to: left, size: 1 in SIDR 15, length: 50 m}
  b: {from: c, to: right, size: 1 in SIDR 15, length: 60 m}
  d: {from: left, to: far, size: 1 in SIDR 15, length: 70 m}
  e: {from: far, to: right, size: 1 in SIDR 15, length: 80 m}
  f: {from: far, to: p, size: 1 in SIDR 15, length: 90 m}
  g: {from: lone, to: q, size: 1 in SIDR 15, length: 60 m}
)";

model::Diagnostic problem_of(const std::string& words) {
  const model::Farm farm = tests::farm_of(ring);
  const std::vector<model::Diagnostic> problems =
      profile_problems(farm, solver::profile_of(farm, words, {}));
  REQUIRE(problems.size() == 1);
  return problems.front();
}

}  // namespace

TEST_CASE("two ways of equally many pipes are told, pipe by pipe") {
  const model::Diagnostic problem = problem_of("c..p");
  CHECK(problem.code == "several-routes");
  CHECK(problem.text == "several routes of 3 pipes lead along 'c..p': a + d + f, b + e + f");
  CHECK(problem.file == "test.yaml");
}

TEST_CASE("of more equal ways than are listed it is told that there are more") {
  const model::Farm farm = tests::farm_of(ring);
  solver::Profile profile;
  profile.problem = solver::SeveralRoutes{"c..p", {{"a"}, {"b"}}, true};
  CHECK(profile_problems(farm, profile).front().text ==
        "several routes of 1 pipe lead along 'c..p': a, b and more");
}

TEST_CASE("a run that cannot be found says what is wrong with its name") {
  CHECK(problem_of("nosuch").code == "unknown-pipe");
  CHECK(problem_of("nosuch").text == "no pipe is named 'nosuch'");
  CHECK(problem_of("left..rigth").code == "unknown-place");
  CHECK(problem_of("left..rigth").text == "no place is named 'rigth'");
  CHECK(problem_of("left..rigth").hint == "did you mean 'right'?");
  CHECK(problem_of("left..left").code == "no-route");
  CHECK(problem_of("far").hint == "for a run between two places write \"FROM..TO\"");
  CHECK(problem_of("..").code == "unknown-place");
  CHECK(problem_of("c..q").code == "no-route");
  CHECK(problem_of("c..q").text == "no pipes join 'c' and 'q'");
}

TEST_CASE("a farm with a profile has no problems to tell") {
  const model::Farm farm = tests::farm_of(ring);
  CHECK(profile_problems(farm, solver::profile_of(farm, "a", {})).empty());
}

}  // namespace leat::render
