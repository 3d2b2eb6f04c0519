#include "render/words/size.h"

#include <catch2/catch.hpp>

namespace leat::render {

TEST_CASE("what sizing took and found is said as it was found", "[size]") {
  CHECK(size_note(solver::PartlyReached{"yard", 0.624}) ==
        "no size of the list brings yard more than 62 % of what is wanted there");
  CHECK(size_note(solver::ChosenByWeight{"SIDR 15"}).find("no prices") != std::string::npos);
  CHECK(size_note(solver::Tightened{1}).ends_with("tightened 1 time"));
  CHECK(size_note(solver::Tightened{2}).ends_with("tightened 2 times"));
}

TEST_CASE("a farm with nothing to size is told what to write", "[size]") {
  model::Farm farm;
  farm.file = "farm.yaml";
  const model::Diagnostic problem = size_problem(solver::SizeRefusal::NothingToSize, farm);
  CHECK(problem.code == "nothing-to-size");
  CHECK(problem.file == "farm.yaml");
  CHECK(problem.hint == "write 'size: choose' on the pipes to be sized");
}

TEST_CASE("a rule for a store says what it is for, and for how many days", "[size]") {
  solver::StoreRule rule;
  rule.purpose = solver::StorePurpose::DaysWithoutSource;
  rule.days = 7;
  CHECK(rule_words(rule) == "7 days without a source");
  rule.purpose = solver::StorePurpose::LineShut;
  rule.days = 1;
  CHECK(rule_words(rule) == "a day with nothing coming in");
}

}  // namespace leat::render
