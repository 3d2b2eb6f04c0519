// What one change helps a trough most: farms of a few pipes, where the answer can be reasoned out.
#include "solver/improve/improve.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <catch2/catch.hpp>

#include "model/keys/farm_file.h"
#include "solver/compare/compare.h"
#include "solver/improve/possible_changes.h"
#include "solver/improve/trial.h"
#include "solver/steady/steady.h"
#include "tests/support/farm_text.h"

namespace leat::solver {

namespace {

model::Farm demo(const std::string& name) {
  model::LoadedFarm loaded =
      model::load_farm_file(std::string(LEAT_SOURCE_DIR) + "/networks-demo/" + name);
  REQUIRE(loaded.farm);
  return *std::move(loaded.farm);
}

const SolvedChange* first_of(const ImprovePlan& plan, ChangeKind kind) {
  for (const SolvedChange& change : plan.changes) {
    if (change.kind == kind) {
      return &change;
    }
  }
  return nullptr;
}

/// A tank feeds a trough on the hill through a pipe that a tap lower down drains.
const char* const drained_hill = R"(
farm: drained hill
tanks:
  top tank: {floor: 20 m, full: 2 m, diameter: 3 m}
tees:
  fork: 5 m
troughs:
  hill: {float: 12 m, need: 6 L/min}
outlets:
  tap: {level: 2 m}
pipes:
  main: {from: top tank, to: fork, size: 32 mm PE100 SDR 11, length: 60 m}
  to hill: {from: fork, to: hill, size: 25 mm PE100 SDR 11, length: 40 m}
  to tap: {from: fork, to: tap, size: 32 mm PE100 SDR 11, length: 10 m}
)";

/// One spring and one float with a seat far too small: nothing else holds the water back.
const char* const small_seat = R"(
farm: small seat
creeks:
  beck: {surface: 20 m}
troughs:
  low: {float: 10 m, need: 20 L/min, seat: 4 mm}
pipes:
  line: {from: beck, to: low, size: 40 mm PE100 SDR 11, length: 50 m}
)";

}  // namespace

TEST_CASE("a valve on the line that drains a hill trough gives it its share, and says how far") {
  const model::Farm farm = tests::farm_of(drained_hill);
  const ImprovePlan plan = improve_plan(farm, {});
  REQUIRE(plan.problems.empty());
  CHECK(farm.places[plan.place].name == "hill");
  const SolvedChange* const valve = first_of(plan, ChangeKind::ValveSet);
  REQUIRE(valve != nullptr);
  CHECK(valve->where == "to tap");
  CHECK(valve->helps);
  CHECK(*valve->met_after > *valve->met_before);
  const auto& set = std::get<SetValve>(valve->actions.front());
  CHECK(set.is_new);
  CHECK(set.type == model::ValveType::Gate);
  CHECK(set.open <= 0.5);
  REQUIRE_FALSE(valve->gets.empty());
  CHECK(farm.places[valve->gets.front().place].name == "hill");
}

TEST_CASE("where a small seat holds the water back a wider seat comes first") {
  const ImprovePlan plan = improve_plan(tests::farm_of(small_seat), {});
  REQUIRE_FALSE(plan.changes.empty());
  CHECK(plan.changes.front().kind == ChangeKind::Seat);
  CHECK(*plan.changes.front().met_after == Approx(1.0));
  // An orifice: Q = Cd A sqrt(2 g h), textbook. 4 mm and 10 m bring 6.33 L/min, less than a third.
  CHECK(*plan.changes.front().met_before == Approx(6.33 / 20.0).epsilon(0.02));
}

TEST_CASE("a second line like the first doubles what runs from a creek to a pond") {
  // By continuity: two equal lines under one head, whatever their friction.
  const model::Farm farm = tests::farm_of(R"(
farm: two lines
creeks:
  beck: {surface: 20 m}
ponds:
  pond: {surface: 10 m}
pipes:
  line: {from: beck, to: pond, size: {bore: 25 mm, friction factor: 0.02}, length: 200 m,
         entrance: 0, exit: 0}
)");
  const ImprovePlan plan = improve_plan(farm, {});
  REQUIRE(plan.problems.empty());
  const SolvedChange* const second = first_of(plan, ChangeKind::SecondLine);
  REQUIRE(second != nullptr);
  const double before = water_got_m3_s(farm.places[1], plan.answer.places[1]);
  CHECK(second->gain_m3_s == Approx(before).epsilon(1e-6));
}

TEST_CASE("every gain is what a fresh solve of the changed farm shows") {
  const model::Farm farm = demo("21-what-helps-the-ridge.yaml");
  const ImprovePlan plan = improve_plan(farm, {});
  const std::size_t ridge = plan.place;
  REQUIRE(farm.places[ridge].name == "ridge");
  const ChangeAim aim{&farm, &plan.answer, ridge, farm.show};
  int checked = 0;
  for (const Change& change : possible_changes(aim)) {
    for (const Setting& setting : change.settings) {
      if (setting.phases.size() != 1 || setting.stored_place) {
        continue;
      }
      for (const SolvedChange& solved : plan.changes) {
        if (!(solved.actions.front() == setting.action)) {
          continue;
        }
        const SteadyAnswer fresh = solve_steady(changed_farm(farm, setting.phases.front()), {});
        REQUIRE(fresh.converged);
        CHECK(solved.gain_m3_s ==
              Approx(fresh.places[ridge].delivered_m3_s - plan.answer.places[ridge].delivered_m3_s)
                  .margin(1e-9));
        CHECK(*solved.met_after == Approx(fresh.places[ridge].met.value()).margin(1e-6));
        ++checked;
      }
    }
  }
  CHECK(checked >= 15);
}

TEST_CASE("troughs in turn share the day out: what all get is what the spring gives") {
  const model::Farm farm = demo("02-high-trough.yaml");
  const ImprovePlan plan = improve_plan(farm, {});
  const SolvedChange* const turns = first_of(plan, ChangeKind::Hours);
  REQUIRE(turns != nullptr);
  CHECK(turns->helps);
  // The spring gives 1.1 gal/min in August at the most: no change of hours makes more of it.
  CHECK(turns->total_gain_m3_s <= 1e-9);
}

TEST_CASE("a store at a trough gives it the day's water, and states what it must hold") {
  const ImprovePlan plan = improve_plan(demo("02-high-trough.yaml"), {});
  const SolvedChange& best = plan.changes.front();
  CHECK(best.kind == ChangeKind::Store);
  CHECK(*best.met_after == Approx(1.0));
  // 14 nursing cows at 18 gal in 8 of 24 h: two thirds of a day's 252 gal fill at other hours.
  CHECK(in_us_gallons(cubic_metres(std::get<BuildStore>(best.actions.front()).volume_m3)) ==
        Approx(252.0 * 16.0 / 24.0).epsilon(0.01));
}

TEST_CASE("on the high trough demo no change that could be made beats the one put first") {
  const model::Farm farm = demo("02-high-trough.yaml");
  const ImprovePlan plan = improve_plan(farm, {});
  const ChangeAim aim{&farm, &plan.answer, plan.place, farm.show};
  const double need = *plan.answer.places[plan.place].need_m3_s;
  double best_met = 0.0;
  double best_total = -1.0;
  for (const Change& change : possible_changes(aim)) {
    for (const Setting& setting : change.settings) {
      std::vector<double> got(farm.places.size(), 0.0);
      for (const Phase& phase : setting.phases) {
        const SteadyAnswer fresh = solve_steady(changed_farm(farm, phase), {});
        REQUIRE(fresh.converged);
        for (std::size_t i = 0; i < got.size(); ++i) {
          const bool is_stored = setting.stored_place && *setting.stored_place == i;
          got[i] += phase.share * (is_stored ? setting.stored_hours : 1.0) *
                    water_got_m3_s(farm.places[i], fresh.places[i]);
        }
      }
      const double met = std::min(1.0, got[plan.place] / need);
      double total = 0.0;
      for (const double one : got) {
        total += one;
      }
      if (met > best_met + 1e-6 || (met > best_met - 1e-6 && total > best_total)) {
        best_met = std::max(met, best_met);
        best_total = total;
      }
    }
  }
  CHECK(*plan.changes.front().met_after == Approx(best_met).margin(1e-6));
  double total_before = 0.0;
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    total_before += water_got_m3_s(farm.places[i], plan.answer.places[i]);
  }
  CHECK(plan.changes.front().total_gain_m3_s == Approx(best_total - total_before).margin(1e-8));
}

TEST_CASE("changes that raise a new danger come after all that raise none") {
  for (const char* const name : {"02-high-trough.yaml",
                                 "05-tangle.yaml",
                                 "21-what-helps-the-ridge.yaml",
                                 "04-deep-dip.yaml",
                                 "01-over-the-rise.yaml"}) {
    const ImprovePlan plan = improve_plan(demo(name), {});
    CAPTURE(name);
    CHECK(std::is_partitioned(plan.changes.begin(), plan.changes.end(), [](const auto& change) {
      return !change.has_new_danger;
    }));
  }
}

TEST_CASE("where nothing starves it says so and ranks by what comes with every float wide open") {
  const model::Farm farm = demo("02-high-trough.yaml");
  ImproveOptions options;
  options.month = model::Month::May;
  const ImprovePlan plan = improve_plan(farm, options);
  CHECK(plan.nothing_starves);
  CHECK(plan.answer.load_case == LoadCase::Wide);
  REQUIRE_FALSE(plan.notes.empty());
  const auto* const ranked = std::get_if<RankedWideOpen>(&plan.notes.front());
  REQUIRE(ranked != nullptr);
  CHECK_FALSE(ranked->was_asked_for);
}

TEST_CASE("an unknown place to help is refused with the nearest name") {
  ImproveOptions options;
  options.place = "ridg";
  const ImprovePlan plan = improve_plan(demo("21-what-helps-the-ridge.yaml"), options);
  REQUIRE(plan.refusal);
  CHECK(std::get<NoSuchPlace>(*plan.refusal).nearest == "ridge");
}

TEST_CASE("what changes cost is the price of the pipe times its length, and unknown without one") {
  const ImprovePlan plan = improve_plan(demo("21-what-helps-the-ridge.yaml"), {});
  for (const SolvedChange& change : plan.changes) {
    CAPTURE(change.where);
    if (change.kind == ChangeKind::SecondLine && change.where == "to ridge") {
      CHECK(change.cost.value() == Approx(310.0 * 0.41));
    }
    if (change.kind == ChangeKind::Seat || change.kind == ChangeKind::FloatLower) {
      CHECK_FALSE(change.cost.has_value());
    }
  }
  for (const SolvedChange& change : improve_plan(demo("02-high-trough.yaml"), {}).changes) {
    CHECK_FALSE(change.cost.has_value());
  }
}

TEST_CASE(
    "a smaller seat that makes another trough go short is set where the worse off gets most") {
  // The spring gives 10 of the 12 L/min both need: by continuity no share-out leaves both above
  // 5/6.
  const model::Farm farm = tests::farm_of(R"(
farm: one spring for two
springs:
  spring: {overflow: 20 m, intake: 19 m, yield: 10 L/min}
tees:
  fork: 10 m
troughs:
  hill: {float: 12 m, need: 6 L/min}
  low: {float: 4 m, need: 6 L/min}
pipes:
  main: {from: spring, to: fork, size: 40 mm PE100 SDR 11, length: 60 m}
  to hill: {from: fork, to: hill, size: 25 mm PE100 SDR 11, length: 40 m}
  to low: {from: fork, to: low, size: 32 mm PE100 SDR 11, length: 10 m}
)");
  ImproveOptions options;
  options.place = "hill";
  const ImprovePlan plan = improve_plan(farm, options);
  REQUIRE(plan.problems.empty());
  const std::size_t low = 3;
  REQUIRE(farm.places[low].name == "low");
  const SolvedChange* const seat = first_of(plan, ChangeKind::Seat);
  REQUIRE(seat != nullptr);
  REQUIRE(seat->where == "low");
  const ChangeAim aim{&farm, &plan.answer, plan.place, farm.show};
  double best = 0.0;
  double most_for_hill = 0.0;
  double chosen = 0.0;
  for (const Change& change : possible_changes(aim)) {
    if (change.kind != ChangeKind::Seat || change.place != low) {
      continue;
    }
    for (const Setting& setting : change.settings) {
      const SteadyAnswer fresh = solve_steady(changed_farm(farm, setting.phases.front()), {});
      const double hill_met = fresh.places[plan.place].met.value();
      const double worse_off = std::min(hill_met, fresh.places[low].met.value());
      best = std::max(best, worse_off);
      most_for_hill = std::max(most_for_hill, hill_met);
      chosen = setting.action == seat->actions.front() ? worse_off : chosen;
    }
  }
  CHECK(chosen == Approx(best).margin(1e-6));
  CHECK(best <= 5.0 / 6.0 + 1e-6);
  CHECK(*seat->met_after < most_for_hill - 0.05);  // a smaller one would give the hill more
}

TEST_CASE("with floats wide open what takes another trough's need comes after what takes none") {
  for (const char* const name : {"04-deep-dip.yaml", "05-tangle.yaml"}) {
    const ImprovePlan plan = improve_plan(demo(name), {});
    CAPTURE(name);
    const auto first_danger =
        std::find_if(plan.changes.begin(), plan.changes.end(), [](const auto& change) {
          return change.has_new_danger;
        });
    CHECK(std::is_partitioned(plan.changes.begin(), first_danger, [](const auto& change) {
      return !change.leaves_another_short;
    }));
    CHECK(std::none_of(plan.changes.begin(), plan.changes.end(), [](const auto& change) {
      return change.helps && change.leaves_another_short;
    }));
  }
}

TEST_CASE("a caution that a change makes a danger is a new danger, the same caution is none") {
  const model::Farm farm = tests::farm_of(drained_hill);
  const SteadyAnswer answer = solve_steady(farm, {});
  const ChangeAim aim{&farm, &answer, 2, farm.show};
  const auto outcome_with = [](Severity severity) {
    Outcome outcome;
    Finding flag;
    flag.code = solver::Code::Collapse;
    flag.where = "main";
    flag.severity = severity;
    outcome.flags = {flag};
    return outcome;
  };
  const Outcome before = outcome_with(Severity::Caution);
  const Ranking ranking(aim, before);
  CHECK(ranking.new_flags(before).empty());
  CHECK(ranking.has_new_danger(outcome_with(Severity::Danger)));
  const Outcome in_danger = outcome_with(Severity::Danger);
  CHECK(Ranking(aim, in_danger).new_flags(outcome_with(Severity::Caution)).empty());
}

TEST_CASE("the best pair betters the best single change or there is none") {
  const ImprovePlan plan = improve_plan(tests::farm_of(drained_hill), {});
  if (plan.pair) {
    CHECK(plan.pair->actions.size() == 2);
    CHECK(*plan.pair->met_after >= *plan.changes.front().met_after - 1e-6);
  }
  CHECK_FALSE(improve_plan(tests::farm_of(small_seat), {}).pair.has_value());
}

TEST_CASE("no check is taken out of a farm that a house draws from") {
  const ImprovePlan plan = improve_plan(demo("05-tangle.yaml"), {});
  CHECK(first_of(plan, ChangeKind::ValveOpened) != nullptr);
  for (const SolvedChange& change : plan.changes) {
    if (const auto* const swap = std::get_if<ChangeFitting>(&change.actions.front())) {
      CHECK(swap->from.find("check") == std::string::npos);
    }
  }
}

TEST_CASE("what air in a falling leg may take is told, and not counted as a gain") {
  const model::Farm farm = demo("07-air-that-stays.yaml");
  const ImprovePlan plan = improve_plan(farm, {});
  const SolvedChange* const bleed = first_of(plan, ChangeKind::Bleeding);
  REQUIRE(bleed != nullptr);
  CHECK(bleed->gain_m3_s == Approx(0.0).margin(1e-12));
  CHECK_FALSE(plan.air.empty());
}

}  // namespace leat::solver
