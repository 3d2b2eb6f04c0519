#include "solver/improve/trial.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "solver/compare/compare.h"
#include "solver/findings/states.h"
#include "solver/flow/solved_case.h"
#include "solver/steady/steady.h"

namespace leat::solver {

namespace {

/// What differs by less is a matter of rounding in the solve: a millionth of a need; 1 mL/s is ten
/// thousand times this flow.
constexpr double met_grain = 1e-6;
constexpr double flow_grain_m3_s = 1e-10;
/// Water gained that is worth a line: a ten-thousandth of the need, or 6 mL a minute.
constexpr double least_met_gain = 1e-4;
constexpr double least_gain_m3_s = 1e-7;

long long grains(double value, double grain) {
  return std::llround(value / grain);
}

bool is_same_finding(const Finding& a, const Finding& b) {
  return a.code == b.code && a.where == b.where;
}

/// Whether a finding is among the flags, no less grave: a caution that becomes a danger is new.
bool holds(const std::vector<Finding>& flags, const Finding& flag) {
  return std::any_of(flags.begin(), flags.end(), [&flag](const Finding& other) {
    return is_same_finding(other, flag) && other.severity <= flag.severity;
  });
}

void add_flags(const std::vector<Finding>& flags, Outcome& outcome) {
  for (const Finding& flag : flags) {
    if (flag.severity == Severity::Note || holds(outcome.flags, flag)) {
      continue;
    }
    std::erase_if(outcome.flags,
                  [&flag](const Finding& milder) { return is_same_finding(milder, flag); });
    outcome.flags.push_back(flag);
  }
}

/// Bleeding air: the answer counts none.
bool changes_nothing(const Setting& setting) {
  return !setting.stored_place &&
         std::none_of(setting.phases.begin(), setting.phases.end(), [](const Phase& phase) {
           return static_cast<bool>(phase.alter);
         });
}

/// Least share of its need that any place but one gets; 1 where none has a need.
double worst_of_others(const Outcome& outcome, std::size_t place) {
  double worst = 1.0;
  for (std::size_t i = 0; i < outcome.met.size(); ++i) {
    if (i != place && outcome.met[i]) {
      worst = std::min(worst, *outcome.met[i]);
    }
  }
  return worst;
}

}  // namespace

double Outcome::total_m3_s() const {
  return std::accumulate(got_m3_s.begin(), got_m3_s.end(), 0.0);
}

double Ranking::gain_m3_s(const Outcome& outcome) const {
  return outcome.got_m3_s[aim_.place] - before_.got_m3_s[aim_.place];
}

double Ranking::total_gain_m3_s(const Outcome& outcome) const {
  return outcome.total_m3_s() - before_.total_m3_s();
}

std::vector<Finding> Ranking::new_flags(const Outcome& outcome) const {
  std::vector<Finding> fresh;
  for (const Finding& flag : outcome.flags) {
    const bool was_dry =
        flag.code == Code::Starved &&
        std::any_of(before_.flags.begin(), before_.flags.end(), [&](const auto& f) {
          return f.code == Code::Dry && f.where == flag.where;
        });
    if (!holds(before_.flags, flag) && !was_dry) {
      fresh.push_back(flag);
    }
  }
  return fresh;
}

bool Ranking::has_new_danger(const Outcome& outcome) const {
  const std::vector<Finding> fresh = new_flags(outcome);
  return std::any_of(fresh.begin(), fresh.end(), [](const Finding& flag) {
    return flag.severity == Severity::Danger;
  });
}

bool Ranking::is_by_need() const {
  return aim_.answer->load_case == LoadCase::Needs && before_.met[aim_.place].has_value();
}

bool Ranking::goes_short(const Outcome& outcome, std::size_t other) const {
  return other != aim_.place && outcome.met[other] && before_.met[other] &&
         *before_.met[other] >= met_limit && *outcome.met[other] < met_limit;
}

bool Ranking::leaves_another_short(const Outcome& outcome) const {
  for (std::size_t i = 0; i < outcome.met.size(); ++i) {
    if (goes_short(outcome, i)) {
      return true;
    }
  }
  return false;
}

double Ranking::share_counted(const Outcome& outcome) const {
  double share = outcome.met[aim_.place].value_or(0.0);
  for (std::size_t i = 0; i < outcome.met.size(); ++i) {
    if (goes_short(outcome, i)) {
      share = std::min(share, *outcome.met[i]);
    }
  }
  return share;
}

bool Ranking::helps(const Outcome& outcome) const {
  return is_by_need() ? share_counted(outcome) > *before_.met[aim_.place] + least_met_gain
                      : gain_m3_s(outcome) > least_gain_m3_s && !leaves_another_short(outcome);
}

bool Ranking::is_better(const Outcome& a,
                        const std::optional<double>& cost_a,
                        const Outcome& b,
                        const std::optional<double>& cost_b) const {
  const bool danger_a = has_new_danger(a);
  const bool danger_b = has_new_danger(b);
  if (danger_a != danger_b) {
    return danger_b;
  }
  const bool by_need = is_by_need();
  const bool robs_a = !by_need && leaves_another_short(a);
  const bool robs_b = !by_need && leaves_another_short(b);
  if (robs_a != robs_b) {
    return robs_b;
  }
  const auto first = [&](const Outcome& outcome) {
    return by_need ? grains(share_counted(outcome), met_grain)
                   : grains(outcome.got_m3_s[aim_.place], flow_grain_m3_s);
  };
  if (first(a) != first(b)) {
    return first(a) > first(b);
  }
  const long long total_a = grains(a.total_m3_s(), flow_grain_m3_s);
  const long long total_b = grains(b.total_m3_s(), flow_grain_m3_s);
  if (total_a != total_b) {
    return total_a > total_b;
  }
  const long long others_a = grains(worst_of_others(a, aim_.place), met_grain);
  const long long others_b = grains(worst_of_others(b, aim_.place), met_grain);
  if (others_a != others_b) {
    return others_a > others_b;
  }
  const std::size_t new_a = new_flags(a).size();
  const std::size_t new_b = new_flags(b).size();
  if (new_a != new_b) {
    return new_a < new_b;
  }
  return cost_a && (!cost_b || *cost_a < *cost_b);
}

void ChangeTrials::add_phase(const model::Farm& changed,
                             const std::vector<PlaceAnswer>& places,
                             double share,
                             Outcome& outcome) const {
  for (std::size_t i = 0; i < outcome.got_m3_s.size(); ++i) {
    outcome.got_m3_s[i] += share * water_got_m3_s(changed.places[i], places[i]);
  }
}

void ChangeTrials::close(const Setting& setting, Outcome& outcome) const {
  if (setting.stored_place) {
    outcome.got_m3_s[*setting.stored_place] *= setting.stored_hours;
  }
  for (std::size_t i = 0; i < outcome.met.size(); ++i) {
    const std::optional<double>& need = aim_.answer->places[i].need_m3_s;
    if (need) {
      outcome.met[i] = *need > 0.0 ? std::min(1.0, outcome.got_m3_s[i] / *need) : 1.0;
    }
  }
  if (setting.phases.size() > 1 || setting.stored_place) {
    tell_shares_of_the_whole(outcome);
  }
}

/// Flags of one phase speak of its own hours and rates; what counts is the water of all hours.
void ChangeTrials::tell_shares_of_the_whole(Outcome& outcome) const {
  std::erase_if(outcome.flags, [&](const Finding& flag) {
    for (std::size_t i = 0; i < outcome.met.size(); ++i) {
      if (is_short(flag.code) && outcome.met[i] && *outcome.met[i] >= met_limit &&
          flag.where == aim_.farm->places[i].name) {
        return true;
      }
    }
    return false;
  });
  for (Finding& flag : outcome.flags) {
    for (std::size_t i = 0; i < outcome.met.size(); ++i) {
      if (is_short(flag.code) && outcome.met[i] && flag.where == aim_.farm->places[i].name) {
        flag.value = *outcome.met[i];
        flag.detail = GoesShortOverItsHours{outcome.got_m3_s[i], *aim_.answer->places[i].need_m3_s};
      }
    }
  }
}

Outcome ChangeTrials::as_it_is() const {
  Outcome outcome;
  outcome.is_solved = true;
  outcome.got_m3_s.resize(aim_.farm->places.size());
  outcome.met.resize(aim_.farm->places.size());
  add_phase(*aim_.farm, aim_.answer->places, 1.0, outcome);
  add_flags(aim_.answer->flags, outcome);
  close({}, outcome);
  return outcome;
}

template <class Solve>
Outcome ChangeTrials::solved_phases(const Setting& setting, const Solve& solve) const {
  Outcome outcome;
  outcome.got_m3_s.resize(aim_.farm->places.size());
  outcome.met.resize(aim_.farm->places.size());
  for (const Phase& phase : setting.phases) {
    const model::Farm changed = changed_farm(*aim_.farm, phase);
    if (!solve(changed, phase.share, outcome)) {
      return outcome;
    }
  }
  close(setting, outcome);
  outcome.is_solved = true;
  return outcome;
}

Outcome ChangeTrials::judged(const Setting& setting) {
  if (changes_nothing(setting)) {
    return as_it_is();
  }
  SteadyOptions options;
  options.load_case = aim_.answer->load_case;
  options.month = aim_.answer->month;
  return solved_phases(setting, [&](const model::Farm& changed, double share, Outcome& outcome) {
    const SteadyAnswer answer = solve_steady_from(warm_, changed, options);
    if (answer.converged) {
      add_phase(changed, answer.places, share, outcome);
      add_flags(answer.flags, outcome);
    }
    return answer.converged;
  });
}

Outcome ChangeTrials::quick(const Setting& setting) {
  NetworkOptions options;
  options.load_case = aim_.answer->load_case;
  options.month = aim_.answer->month;
  return solved_phases(setting, [&](const model::Farm& changed, double share, Outcome& outcome) {
    const SolvedCase solved = solve_running_case(
        changed, surroundings_of(changed, options.month), options, warm_.of(options.load_case));
    if (!solved.places.empty()) {
      add_phase(changed, solved.places, share, outcome);
    }
    return !solved.places.empty();
  });
}

std::optional<Setting> both(const Change& a,
                            const Setting& of_a,
                            const Change& b,
                            const Setting& of_b) {
  const bool both_by_hour = (of_a.stored_place || of_a.phases.size() > 1) &&
                            (of_b.stored_place || of_b.phases.size() > 1);
  if (a.where == b.where || both_by_hour) {
    return std::nullopt;
  }
  Setting setting;
  if (of_a.cost && of_b.cost) {
    setting.cost = *of_a.cost + *of_b.cost;
  }
  setting.stored_place = of_a.stored_place ? of_a.stored_place : of_b.stored_place;
  setting.stored_hours = of_a.stored_hours * of_b.stored_hours;
  for (const Phase& first : of_a.phases) {
    for (const Phase& second : of_b.phases) {
      setting.phases.push_back({first.share * second.share,
                                [one = first.alter, other = second.alter](model::Farm& farm) {
                                  if (one) {
                                    one(farm);
                                  }
                                  if (other) {
                                    other(farm);
                                  }
                                }});
    }
  }
  return setting;
}

}  // namespace leat::solver
