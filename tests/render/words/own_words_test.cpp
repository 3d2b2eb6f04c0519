// Nothing is decided by a name: a farm whose places and pipes bear the program's own words gives
// the same findings as before.
#include <filesystem>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "model/keys/farm_file.h"
#include "render/words/finding_sentence.h"
#include "render/words/findings_text.h"
#include "solver/prime/prime.h"
#include "solver/steady/steady.h"

namespace leat::render {

namespace {

/// Pieces of sentences that the program writes.
const std::vector<std::string>& own_words() {
  static const std::vector<std::string> words = {"suction",
                                                 "foot valve",
                                                 "of the fall (",
                                                 "yields only",
                                                 "spring short",
                                                 "the siphon main",
                                                 "has broken",
                                                 "a, or b",
                                                 "gets nothing",
                                                 "size: choose on",
                                                 "starved",
                                                 "parted"};
  return words;
}

/// The `index`-th of names that are all different.
std::string own_name(std::size_t index) {
  const std::vector<std::string>& words = own_words();
  const std::string& word = words[index % words.size()];
  const std::size_t round = index / words.size();
  return round == 0 ? word : word + " " + std::to_string(round + 1);
}

/// The farm with every name exchanged; all else refers to places and pipes by their number.
model::Farm renamed(model::Farm farm) {
  std::size_t next = 0;
  for (model::Place& place : farm.places) {
    place.name = own_name(next++);
  }
  for (model::Pipe& pipe : farm.pipes) {
    pipe.name = own_name(next++);
  }
  for (model::Pump& pump : farm.pumps) {
    pump.name = own_name(next++);
  }
  for (model::Ram& ram : farm.rams) {
    ram.name = own_name(next++);
  }
  return farm;
}

/// The name in `to` of what bears `name` in `from`.
std::string name_there(const model::Farm& from, const model::Farm& to, const std::string& name) {
  for (std::size_t i = 0; i < from.places.size(); ++i) {
    if (from.places[i].name == name) {
      return to.places[i].name;
    }
  }
  for (std::size_t i = 0; i < from.pipes.size(); ++i) {
    if (from.pipes[i].name == name) {
      return to.pipes[i].name;
    }
  }
  return "";
}

void check_same(const solver::Finding& plain, const solver::Finding& odd) {
  CAPTURE(plain.where, sentence_of(odd, model::UnitSystem::Metric));
  CHECK(odd.code == plain.code);
  CHECK(odd.severity == plain.severity);
  CHECK(odd.load_case == plain.load_case);
  CHECK(odd.measure == plain.measure);
  CHECK(odd.value == plain.value);
  CHECK(odd.limit == plain.limit);
  REQUIRE(odd.detail.index() == plain.detail.index());
  if (const auto* const why = std::get_if<solver::GoesShort>(&plain.detail)) {
    CHECK(std::get<solver::GoesShort>(odd.detail).reason.index() == why->reason.index());
  }
}

void check_same(const model::Farm& farm,
                const std::vector<solver::Finding>& plain,
                const model::Farm& odd_farm,
                const std::vector<solver::Finding>& odd) {
  REQUIRE(odd.size() == plain.size());
  for (std::size_t i = 0; i < plain.size(); ++i) {
    check_same(plain[i], odd[i]);
    CHECK(odd[i].where == name_there(farm, odd_farm, plain[i].where));
  }
  CHECK(is_amiss(odd) == is_amiss(plain));
}

}  // namespace

TEST_CASE("every demo farm named in the program's own words has the findings it had") {
  const std::string folder = std::string(LEAT_SOURCE_DIR) + "/networks-demo";
  std::size_t findings = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    const model::LoadedFarm loaded = model::load_farm_file(entry.path().string());
    if (entry.path().extension() != ".yaml" || !loaded.farm) {
      continue;
    }
    CAPTURE(entry.path().filename().string());
    const model::Farm& farm = *loaded.farm;
    const model::Farm odd_farm = renamed(farm);
    for (const solver::LoadCase load_case :
         {solver::LoadCase::Needs, solver::LoadCase::Wide, solver::LoadCase::Static}) {
      solver::SteadyOptions options;
      options.load_case = load_case;
      const solver::SteadyAnswer plain = solver::solve_steady(farm, options);
      const solver::SteadyAnswer odd = solver::solve_steady(odd_farm, options);
      check_same(farm, plain.flags, odd_farm, odd.flags);
      findings += plain.flags.size();
    }
    const solver::PrimePlan plan = solver::priming_plan(farm, {});
    const solver::PrimePlan odd_plan = solver::priming_plan(odd_farm, {});
    CHECK(odd_plan.need == plan.need);
    CHECK(odd_plan.steps.size() == plan.steps.size());
    check_same(farm, plan.answer.flags, odd_farm, odd_plan.answer.flags);
  }
  CHECK(findings > 50);
}

}  // namespace leat::render
