// On random farms where somebody goes short: what is put first is what a full search puts first,
// though only the changes that promise most are solved; every changed farm solves; the farm given
// stays as it is.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "render/words/improve.h"
#include "solver/findings/states.h"
#include "solver/flow/solved_case.h"
#include "solver/flow/warm_cases.h"
#include "solver/improve/improve.h"
#include "solver/improve/possible_changes.h"
#include "solver/improve/shortlist.h"
#include "solver/steady/steady.h"
#include "tests/support/farms_asked.h"
#include "tests/support/random_farm.h"

namespace leat::solver {

namespace {

/// Starving farms a test takes: 200 where farms are asked for by name, else a few.
int starving_farms(int few) {
  return tests::farms_asked_by_name() ? 200 : few;
}

bool somebody_starves(const SteadyAnswer& answer) {
  return answer.converged &&
         std::any_of(answer.places.begin(), answer.places.end(), [](const PlaceAnswer& place) {
           return place.met && *place.met < met_limit;
         });
}

/// Calls `look` with so many farms on which somebody goes short, of at most so many pipes.
template <class Look>
void for_starving_farms(int count, std::size_t most_pipes, const Look& look) {
  int found = 0;
  for (std::uint64_t seed = 1; found < count && seed < 100000; ++seed) {
    const model::Farm farm = tests::random_farm(seed, tests::FarmKind::Everything);
    if (farm.pipes.size() < 4 || farm.pipes.size() > most_pipes) {
      continue;
    }
    if (somebody_starves(solve_steady(farm, {}))) {
      CAPTURE(seed);
      ++found;
      look(farm, seed);
    }
  }
  CHECK(found == count);
}

/// Whether one change is ranked no lower than another but for their names: the same danger, the
/// same water for the place asked for and for all.
bool is_as_good(const SolvedChange& one, const SolvedChange& other) {
  return one.actions == other.actions ||
         (one.has_new_danger == other.has_new_danger &&
          one.leaves_another_short == other.leaves_another_short &&
          std::abs(*one.met_after - *other.met_after) < 2e-6 &&
          std::abs(one.total_gain_m3_s - other.total_gain_m3_s) < 1e-8);
}

/// What comes first where only so many changes are solved. A change's outcome does not depend on
/// which others are tried, so that the full search holds the short one's answers; the test of plans
/// below shows it.
const SolvedChange* first_of_shortlist(const ImprovePlan& searched,
                                       const std::vector<Change>& changes,
                                       const std::vector<std::size_t>& shortlist) {
  std::vector<Action> kept;
  for (const std::size_t i : shortlist) {
    for (const Setting& setting : changes[i].settings) {
      kept.push_back(setting.action);
    }
  }
  const auto found = std::find_if(
      searched.changes.begin(), searched.changes.end(), [&](const SolvedChange& change) {
        return std::find(kept.begin(), kept.end(), change.actions.front()) != kept.end();
      });
  return found == searched.changes.end() ? nullptr : &*found;
}

std::string told(const SolvedChange& change) {
  return render::action_words(change.actions.front(), model::UnitSystem::Metric);
}

/// How often a shortlist of one length held what a full search puts first. Where that does not help
/// the place asked for, all that a person sees is that nothing does: then the shortlist must say so
/// too.
struct Hits {
  int taken = 0;
  int same = 0;
  int nothing_helps = 0;
  std::string misses;

  void count(const SolvedChange& best, const SolvedChange* chosen, std::uint64_t seed) {
    ++taken;
    nothing_helps += best.helps ? 0 : 1;
    if (chosen != nullptr && (is_as_good(*chosen, best) || (!best.helps && !chosen->helps))) {
      ++same;
      return;
    }
    misses += fmt::format("\n  seed {}: {} (to {:.4f}); of the shortlist {} (to {:.4f})",
                          seed,
                          told(best),
                          best.met_after.value_or(0.0),
                          chosen == nullptr ? "none" : told(*chosen),
                          chosen == nullptr ? 0.0 : chosen->met_after.value_or(0.0));
  }
};

}  // namespace

TEST_CASE("what promises most to first order holds what a full search puts first", "[law]") {
  // Few random farms have more than 300 changes: half of what there is is a harder choice.
  Hits limit;
  Hits half;
  Hits quarter;
  int above_limit = 0;
  std::size_t solved = 0;
  const bool asked = tests::farms_asked_by_name();
  for_starving_farms(
      starving_farms(4), asked ? 1000 : 16, [&](const model::Farm& farm, std::uint64_t seed) {
        ImproveOptions full;
        full.most_solved = 1000000;
        full.pairs = false;
        const ImprovePlan searched = improve_plan(farm, full);
        REQUIRE(searched.problems.empty());
        if (searched.changes.empty()) {
          return;
        }
        const SteadyState state = solve_steady_state(farm, {});
        const ChangeAim aim{&farm, &state.answer, searched.place, farm.show};
        const std::vector<Change> changes = possible_changes(aim);
        const std::vector<double> estimates = estimated_gains(aim, state.flow, changes);
        const auto chosen = [&](std::size_t most) {
          return first_of_shortlist(searched, changes, most_promising(estimates, most));
        };
        const std::size_t by_two = std::max<std::size_t>(changes.size() / 2, 10);
        limit.count(searched.changes.front(), chosen(most_changes_solved), seed);
        half.count(searched.changes.front(), chosen(std::min(by_two, most_changes_solved)), seed);
        quarter.count(
            searched.changes.front(), chosen(std::max<std::size_t>(changes.size() / 4, 10)), seed);
        above_limit += changes.size() > most_changes_solved ? 1 : 0;
        solved += changes.size();
      });
  if (asked) {
    WARN(
        fmt::format("{} of {} starving farms by {} changes (more than that have {}); {} by half of "
                    "them; {} by a quarter; nothing helps on {}; {} changes solved\nby half:{}\n"
                    "by a quarter:{}",
                    limit.same,
                    limit.taken,
                    most_changes_solved,
                    above_limit,
                    half.same,
                    quarter.same,
                    limit.nothing_helps,
                    solved,
                    half.misses,
                    quarter.misses));
  }
  CAPTURE(half.misses);
  CHECK(limit.taken > 0);
  CHECK(limit.same * 100 >= limit.taken * 99);
  CHECK(half.same * 100 >= half.taken * 99);
}

TEST_CASE("a short search ranks what it solves as a full one does, on one thread or on seven",
          "[law]") {
  for_starving_farms(3, 20, [](const model::Farm& farm, std::uint64_t) {
    ImproveOptions full;
    full.threads = 7;
    const ImprovePlan searched = improve_plan(farm, full);
    ImproveOptions few;
    few.threads = 1;
    few.most_solved = std::max<std::size_t>(searched.changes.size() / 2, 10);
    const ImprovePlan chosen = improve_plan(farm, few);
    std::size_t at = 0;
    for (const SolvedChange& change : chosen.changes) {
      while (at < searched.changes.size() && !(searched.changes[at].actions == change.actions)) {
        ++at;
      }
      REQUIRE(at < searched.changes.size());
      CHECK(searched.changes[at].gain_m3_s == change.gain_m3_s);
      CHECK(searched.changes[at].total_gain_m3_s == change.total_gain_m3_s);
      CHECK(searched.changes[at].new_flags.size() == change.new_flags.size());
    }
  });
}

TEST_CASE("a change solved from the answer there is gives what it gives solved from nothing",
          "[law]") {
  std::size_t solved = 0;
  std::size_t differ = 0;
  double worst = 0.0;
  std::string told;
  const bool asked = tests::farms_asked_by_name();
  for_starving_farms(
      starving_farms(6), asked ? 60 : 16, [&](const model::Farm& farm, std::uint64_t seed) {
        const SteadyAnswer answer = solve_steady(farm, {});
        const ChangeAim aim{&farm, &answer, 0, farm.show};
        const BaseCases base = base_cases(farm, answer.month);
        WarmCases warm(base);
        for (const LoadCase load_case : {LoadCase::Needs, LoadCase::Wide}) {
          NetworkOptions options;
          options.load_case = load_case;
          options.month = answer.month;
          for (const Change& change : possible_changes(aim)) {
            const model::Farm changed = changed_farm(farm, change.settings.back().phases.back());
            const Surroundings around = surroundings_of(changed, answer.month);
            const SolvedCase cold = solve_running_case(changed, around, options);
            const SolvedCase quick =
                solve_running_case(changed, around, options, warm.of(load_case));
            const std::string words =
                render::action_words(change.settings.back().action, farm.show);
            CAPTURE(seed, words, word_of(load_case));
            REQUIRE(cold.places.size() == quick.places.size());
            double largest = 0.0;
            double apart = 0.0;
            for (std::size_t i = 0; i < cold.places.size(); ++i) {
              largest = std::max(largest, std::abs(cold.places[i].delivered_m3_s));
              apart = std::max(
                  apart, std::abs(cold.places[i].delivered_m3_s - quick.places[i].delivered_m3_s));
            }
            ++solved;
            if (apart > 1e-7 * largest) {
              ++differ;
              told += fmt::format("seed {}, {}: {}: {:.3g} of the largest flow\n",
                                  seed,
                                  word_of(load_case),
                                  words,
                                  apart / largest);
            } else if (largest > 0.0) {
              worst = std::max(worst, apart / largest);
            }
          }
        }
      });
  if (asked) {
    WARN(fmt::format("{} of {} changed farms differ by more; the worst of the others by {:.2g}",
                     differ,
                     solved,
                     worst));
  }
  INFO(told);
  // A farm whose tees draw air or whose new tank settles may stand in two ways; which one is found
  // may hang on where the solve began (METHOD.md, "Improve": 5 of 41 690).
  CHECK(differ <= solved / 5000);
}

TEST_CASE("every changed farm of a random starving farm solves and the farm stays as it was",
          "[law]") {
  for_starving_farms(starving_farms(6), 24, [](const model::Farm& farm, std::uint64_t) {
    const SteadyAnswer before = solve_steady(farm, {});
    const ImprovePlan plan = improve_plan(farm, {});
    REQUIRE(plan.problems.empty());
    for (const ImproveNote& note : plan.notes) {
      CHECK_FALSE(std::holds_alternative<LeftOut>(note));
    }
    const SteadyAnswer after = solve_steady(farm, {});
    REQUIRE(after.places.size() == before.places.size());
    for (std::size_t i = 0; i < before.places.size(); ++i) {
      CHECK(after.places[i].delivered_m3_s == before.places[i].delivered_m3_s);
    }
  });
}

}  // namespace leat::solver
