#include "solver/improve/improve.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <set>
#include <utility>

#include "model/text/nearest_word.h"
#include "solver/compare/compare.h"
#include "solver/findings/states.h"
#include "solver/improve/shortlist.h"
#include "solver/improve/small_changes.h"
#include "solver/improve/trial.h"
#include "solver/steady/steady.h"
#include "solver/uncertainty/on_all_cores.h"

namespace leat::solver {

namespace {

/// Single changes that are tried in pairs.
constexpr std::size_t changes_in_pairs = 12;

/// A change with its best setting and what that brings.
struct Tried {
  const Change* change = nullptr;
  const Setting* setting = nullptr;
  Outcome outcome;
};

/// Two changes at once, solved in the one load case.
struct Pair {
  const Tried* one = nullptr;
  const Tried* other = nullptr;
  Setting setting;
  Outcome quick;
};

class ImproveStudy {
 public:
  ImproveStudy(const model::Farm& farm, const ImproveOptions& options)
      : farm_(farm), options_(options), units_(options.units.value_or(farm.show)) {}

  ImprovePlan plan() {
    if (options_.load_case == LoadCase::Static) {
      plan_.refusal = StaticCase{};
      return std::move(plan_);
    }
    state_ = solve_steady_state(farm_, steady_options(options_.load_case));
    if (!state_.answer.converged) {
      plan_.problems = state_.answer.problems;
      return std::move(plan_);
    }
    plan_.flags = state_.answer.flags;
    if (!choose_place()) {
      return std::move(plan_);
    }
    const ChangeAim aim{&farm_, &state_.answer, plan_.place, units_};
    try_changes(aim);
    if (options_.sensitivities) {
      plan_.small_changes_asked = true;
      plan_.small_changes = small_changes(aim, state_.flow);
      if (plan_.small_changes.empty()) {
        plan_.notes.emplace_back(NoSmallChange{});
      }
    }
    plan_.answer = std::move(state_.answer);
    find_what_holds_back();
    return std::move(plan_);
  }

 private:
  [[nodiscard]] SteadyOptions steady_options(LoadCase load_case) const {
    SteadyOptions options;
    options.load_case = load_case;
    options.month = options_.month;
    return options;
  }

  /// How well off a place is: its share of its need; places without a need come last.
  [[nodiscard]] double well_off(std::size_t place) const {
    const PlaceAnswer& water = state_.answer.places[place];
    if (!model::is_point_of_use(farm_.places[place])) {
      return 1e9;
    }
    if (!water.need_m3_s || *water.need_m3_s <= 0.0) {
      return model::is_pond(farm_.places[place]) && !is_fed(place) ? 1e8 : 1e7;
    }
    return water.delivered_m3_s / *water.need_m3_s;
  }

  [[nodiscard]] bool is_fed(std::size_t place) const {
    return std::any_of(farm_.pipes.begin(), farm_.pipes.end(), [place](const model::Pipe& pipe) {
      return pipe.to == place;
    });
  }

  [[nodiscard]] std::size_t worst_off() const {
    std::size_t worst = 0;
    for (std::size_t i = 1; i < farm_.places.size(); ++i) {
      if (well_off(i) < well_off(worst)) {
        worst = i;
      }
    }
    return worst;
  }

  [[nodiscard]] bool is_short(std::size_t place) const {
    const std::optional<double>& met = state_.answer.places[place].met;
    return met && *met < met_limit;
  }

  bool name_place() {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      if (!model::is_point_of_use(farm_.places[i])) {
        continue;
      }
      names.push_back(farm_.places[i].name);
      if (farm_.places[i].name == *options_.place) {
        plan_.place = i;
        return true;
      }
    }
    plan_.refusal = NoSuchPlace{*options_.place, model::nearest_word(*options_.place, names)};
    return false;
  }

  /// Whom to help. Where nobody is short, floats are thought wide open: then what comes is what the
  /// pipes can bring, and the tightest trough shows.
  bool choose_place() {
    if (options_.place && !name_place()) {
      return false;
    }
    if (!options_.place) {
      plan_.place = worst_off();
    }
    plan_.nothing_starves = !is_short(options_.place ? plan_.place : worst_off());
    const bool has_need = state_.answer.places[plan_.place].met.has_value();
    if (plan_.nothing_starves && options_.load_case == LoadCase::Needs) {
      SteadyState wide = solve_steady_state(farm_, steady_options(LoadCase::Wide));
      if (wide.answer.converged) {
        state_ = std::move(wide);
        if (!options_.place) {
          plan_.place = worst_off();
        }
      }
    }
    const model::Place& place = farm_.places[plan_.place];
    if (!model::is_point_of_use(place)) {
      plan_.refusal = NothingToImprove{};
      return false;
    }
    if (plan_.nothing_starves) {
      plan_.notes.emplace_back(RankedWideOpen{place.name, options_.place.has_value(), has_need});
    }
    return true;
  }

  void try_changes(const ChangeAim& aim) {
    const std::vector<Change> changes = possible_changes(aim);
    std::vector<double> estimates(changes.size(), 0.0);
    if (changes.size() > options_.most_solved) {
      estimates = estimated_gains(aim, state_.flow, changes);
      plan_.notes.emplace_back(OnlyPromising{changes.size(), options_.most_solved});
    }
    const BaseCases base = base_cases(farm_, aim.answer->month);
    ChangeTrials trials(aim, base);
    const Outcome before = trials.as_it_is();
    const Ranking ranking(aim, before);
    const std::vector<std::size_t> chosen = most_promising(estimates, options_.most_solved);
    std::vector<Tried> tried(chosen.size());
    run_draws(chosen.size(), 1, options_.threads, [&](bool /*calls*/) {
      return [&, own = std::make_shared<ChangeTrials>(aim, base)](std::size_t i) {
        tried[i] = best_setting(changes[chosen[i]], *own, ranking);
      };
    });
    const std::size_t unsolved =
        std::erase_if(tried, [](const Tried& one) { return !one.outcome.is_solved; });
    if (unsolved > 0) {
      plan_.notes.emplace_back(LeftOut{unsolved});
    }
    std::stable_sort(tried.begin(), tried.end(), [&](const Tried& a, const Tried& b) {
      return ranking.is_better(a.outcome, a.setting->cost, b.outcome, b.setting->cost);
    });
    for (const Tried& one : tried) {
      plan_.changes.push_back(solved(one.outcome, before, ranking, one.setting->cost));
      plan_.changes.back().where = one.change->where;
      plan_.changes.back().kind = one.change->kind;
      plan_.changes.back().actions = {one.setting->action};
      plan_.changes.back().gets = gets_of(one, aim);
    }
    if (options_.pairs) {
      find_pair(tried, aim, base, before, ranking);
    }
    tell_of_air(changes, trials, before);
  }

  /// Settings are compared by the one load case alone, and only the best is judged: unless it is
  /// dangerous, when the others are judged as well.
  static Tried best_setting(const Change& change, ChangeTrials& trials, const Ranking& ranking) {
    Tried best{&change, nullptr, {}};
    for (const Setting& setting : change.settings) {
      if (change.settings.size() == 1) {
        best.setting = &setting;
        break;
      }
      Outcome outcome = trials.quick(setting);
      if (outcome.is_solved &&
          (best.setting == nullptr ||
           ranking.is_better(outcome, setting.cost, best.outcome, best.setting->cost))) {
        best.setting = &setting;
        best.outcome = std::move(outcome);
      }
    }
    if (best.setting == nullptr) {
      return best;
    }
    best.outcome = trials.judged(*best.setting);
    if (change.settings.size() == 1 || !best.outcome.is_solved ||
        !ranking.has_new_danger(best.outcome)) {
      return best;
    }
    for (const Setting& setting : change.settings) {
      Outcome outcome = trials.judged(setting);
      if (outcome.is_solved &&
          ranking.is_better(outcome, setting.cost, best.outcome, best.setting->cost)) {
        best.setting = &setting;
        best.outcome = std::move(outcome);
      }
    }
    return best;
  }

  SolvedChange solved(const Outcome& outcome,
                      const Outcome& before,
                      const Ranking& ranking,
                      const std::optional<double>& cost) const {
    SolvedChange change;
    change.gain_m3_s = ranking.gain_m3_s(outcome);
    change.total_gain_m3_s = ranking.total_gain_m3_s(outcome);
    change.met_before = before.met[plan_.place];
    change.met_after = outcome.met[plan_.place];
    change.new_flags = ranking.new_flags(outcome);
    std::stable_sort(
        change.new_flags.begin(), change.new_flags.end(), [](const Finding& a, const Finding& b) {
          return a.severity == Severity::Danger && b.severity != Severity::Danger;
        });
    change.cost = cost;
    change.helps = ranking.helps(outcome);
    change.has_new_danger = ranking.has_new_danger(outcome);
    change.leaves_another_short = ranking.leaves_another_short(outcome);
    return change;
  }

  /// What is set by hand says what everybody then gets, so that it can be checked with a bucket.
  [[nodiscard]] std::vector<PlaceShare> gets_of(const Tried& tried, const ChangeAim& aim) const {
    const ChangeKind kind = tried.change->kind;
    if (kind != ChangeKind::ValveSet && kind != ChangeKind::Seat && kind != ChangeKind::Hours) {
      return {};
    }
    std::vector<PlaceShare> gets;
    const auto add = [&](std::size_t place) {
      gets.push_back({place, tried.outcome.got_m3_s[place], aim.answer->places[place].need_m3_s});
    };
    add(aim.place);
    constexpr std::size_t most_named = 6;
    for (std::size_t i = 0; i < farm_.places.size() && gets.size() < most_named; ++i) {
      if (i != aim.place && model::is_point_of_use(farm_.places[i]) && is_fed(i)) {
        add(i);
      }
    }
    return gets;
  }

  void find_pair(const std::vector<Tried>& tried,
                 const ChangeAim& aim,
                 const BaseCases& base,
                 const Outcome& before,
                 const Ranking& ranking) {
    // Those that do nothing alone are among them: two together may bring water to a dry trough.
    std::vector<const Tried*> helping;
    for (const Tried& one : tried) {
      if (one.change->kind != ChangeKind::Bleeding && helping.size() < changes_in_pairs) {
        helping.push_back(&one);
      }
    }
    if (helping.empty()) {
      return;
    }
    std::vector<Pair> pairs;
    for (std::size_t i = 0; i < helping.size(); ++i) {
      for (std::size_t j = i + 1; j < helping.size(); ++j) {
        if (auto setting = both(*helping[i]->change,
                                *helping[i]->setting,
                                *helping[j]->change,
                                *helping[j]->setting)) {
          pairs.push_back({helping[i], helping[j], std::move(*setting), {}});
        }
      }
    }
    run_draws(pairs.size(), 1, options_.threads, [&](bool /*calls*/) {
      return [&, own = std::make_shared<ChangeTrials>(aim, base)](std::size_t i) {
        pairs[i].quick = own->quick(pairs[i].setting);
      };
    });
    ChangeTrials trials(aim, base);
    Outcome best = helping.front()->outcome;
    std::optional<double> cost = helping.front()->setting->cost;
    for (const Pair& pair : pairs) {
      if (!pair.quick.is_solved || !ranking.is_better(pair.quick, pair.setting.cost, best, cost)) {
        continue;  // without its flags it looks better than it can be
      }
      Outcome outcome = trials.judged(pair.setting);
      if (outcome.is_solved && ranking.helps(outcome) &&
          ranking.is_better(outcome, pair.setting.cost, best, cost)) {
        plan_.pair = solved(outcome, before, ranking, pair.setting.cost);
        plan_.pair->actions = {pair.one->setting->action, pair.other->setting->action};
        best = std::move(outcome);
        cost = pair.setting.cost;
      }
    }
  }

  /// The answer counts no air. How much worse it may be than it says, where air can stay.
  void tell_of_air(const std::vector<Change>& changes,
                   ChangeTrials& trials,
                   const Outcome& before) {
    for (const Change& change : changes) {
      if (!change.with_air) {
        continue;
      }
      const Setting with_air =
          setting_of(change.settings.front().action, std::nullopt, change.with_air);
      const Outcome outcome = trials.quick(with_air);
      const double lost =
          outcome.is_solved ? before.got_m3_s[plan_.place] - outcome.got_m3_s[plan_.place] : 0.0;
      if (lost > 1e-7) {
        plan_.air.push_back({change.settings.front().action, outcome.got_m3_s[plan_.place]});
      }
    }
  }

  void find_what_holds_back() {
    std::set<std::size_t> sources;
    for (const model::Pipe& pipe : farm_.pipes) {
      if (!model::is_tee(farm_.places[pipe.from])) {
        sources.insert(pipe.from);
      }
    }
    for (const Finding& flag : plan_.answer.flags) {
      if (solver::is_short(flag.code) && flag.where == farm_.places[plan_.place].name) {
        plan_.held_back_by = flag;
        return;
      }
      if (flag.code == Code::DrawnDown && sources.size() == 1) {
        plan_.held_back_by = flag;
      }
    }
  }

  const model::Farm& farm_;
  const ImproveOptions& options_;
  model::UnitSystem units_;
  SteadyState state_;
  ImprovePlan plan_;
};

}  // namespace

ImprovePlan improve_plan(const model::Farm& farm, const ImproveOptions& options) {
  return ImproveStudy(farm, options).plan();
}

}  // namespace leat::solver
