#include "render/words/improve.h"

#include <string>

#include <catch2/catch.hpp>

namespace leat::render {

namespace {

constexpr auto metric = model::UnitSystem::Metric;
constexpr auto us = model::UnitSystem::Us;

std::string opening(model::ValveType type, double open) {
  return action_words(solver::SetValve{"lane", type, open, false}, metric);
}

}  // namespace

TEST_CASE("a valve is set as a keeper can set it", "[improve]") {
  using model::ValveType;
  CHECK(opening(ValveType::Gate, 6.0 / 8) == "set the gate valve on lane 3/4 open");
  CHECK(opening(ValveType::Gate, 7.0 / 16) == "set the gate valve on lane 7/16 open");
  CHECK(opening(ValveType::Ball, 5.5 / 9) == "set the ball valve on lane 35 degrees from open");
  CHECK(action_words(solver::SetValve{"to tap", ValveType::Gate, 0.5, true}, metric) ==
        "a gate valve at the end of to tap, 1/2 open");
}

TEST_CASE("what a fitting's change asks for is told beside it", "[improve]") {
  using Consequence = solver::ChangeFitting::Consequence;
  CHECK(action_words(
            solver::ChangeFitting{
                "main", "poppet foot valve", "hinged foot valve", Consequence::None},
            metric) == "a hinged foot valve for the poppet foot valve of main");
  CHECK(action_words(solver::ChangeFitting{"main", "swing check", "", Consequence::MayRunBack},
                     metric) == "take the swing check out of main (water may then run back)");
}

TEST_CASE("amounts of a change are in the units asked for", "[improve]") {
  CHECK(action_words(solver::ChangeSeat{"low", 2.5, false}, metric) ==
        "a smaller seat of 2.5 mm at low");
  CHECK(action_words(solver::ChangeSeat{"low", 2.5, true}, us) ==
        "a wider seat of 2.5 mm (0.10 in) at low");
  CHECK(action_words(solver::BuildStore{"top trough", 0.6322}, us)
            .find("a store of 167 gal at top trough") == 0);
  CHECK(action_words(solver::TakeTurns{"top", 3, 8, 8.0}, us) ==
        "troughs in turn: top alone for 3 of the 8 h, the others shut meanwhile");
  CHECK(action_words(solver::TakeTurns{"top", 3, 8, {}}, us) ==
        "troughs in turn: top alone for 3/8 of the hours, the others shut meanwhile");
}

TEST_CASE("what is set by hand says what each place then gets", "[improve]") {
  model::Farm farm;
  farm.places.resize(2);
  farm.places[0].name = "hill";
  farm.places[1].name = "low";
  solver::SolvedChange change;
  change.actions = {solver::SetValve{"to tap", model::ValveType::Gate, 0.25, true}};
  change.gets = {{0, 6e-3 / 60.0, 8e-3 / 60.0}, {1, 9e-3 / 60.0, {}}};
  CHECK(change_words(farm, change, metric) ==
        "a gate valve at the end of to tap, 1/4 open: hill then gets 6 L/min (needs 8), low gets "
        "9 L/min");
}

TEST_CASE("a plan says by what it ranked and why there is none", "[improve]") {
  CHECK(improve_note(solver::RankedWideOpen{"top", false, true}).find("nothing goes short") == 0);
  CHECK(improve_note(solver::RankedWideOpen{"top", true, false}) ==
        "top has no need set: ranked by what top would get with every float wide open");
  model::Farm farm;
  farm.file = "farm.yaml";
  const model::Diagnostic problem = improve_problem(solver::NoSuchPlace{"ridg", "ridge"}, farm);
  CHECK(problem.code == "unknown-place");
  CHECK(problem.file == "farm.yaml");
  CHECK(problem.hint == "did you mean 'ridge'?");
}

}  // namespace leat::render
