#include "solver/compare/compare.h"

#include <algorithm>
#include <variant>

#include "model/catalogue/fitting_catalogue.h"
#include "solver/flow/driest_month.h"
#include "solver/season/season.h"
#include "solver/steady/steady.h"

namespace leat::solver {

namespace {

std::optional<model::Month> common_month(const std::vector<const model::Farm*>& farms,
                                         const CompareOptions& options) {
  if (options.month) {
    return options.month;
  }
  for (const model::Farm* const farm : farms) {
    if (const auto month = driest_month(*farm)) {
      return month;
    }
  }
  return std::nullopt;
}

void count_fittings(const model::Pipe& pipe, MovingParts& parts) {
  for (const model::Fitting& fitting : pipe.fittings) {
    if (model::is_foot_valve(fitting)) {
      parts.foot_valves += fitting.count;
    } else if (fitting.one_way) {
      parts.checks += fitting.count;
    }
  }
  parts.regulators += pipe.regulator ? 1 : 0;
}

MovingParts moving_parts(const model::Farm& farm) {
  MovingParts parts;
  for (const model::Place& place : farm.places) {
    parts.floats += model::float_level_of(place) ? 1 : 0;
  }
  for (const model::Pipe& pipe : farm.pipes) {
    count_fittings(pipe, parts);
  }
  parts.rams = static_cast<int>(farm.rams.size());
  parts.pumps = static_cast<int>(farm.pumps.size());
  return parts;
}

/// All that is got of all that is needed; none where nothing is needed.
std::optional<double> share_met(const SteadyAnswer& answer) {
  double got_m3_s = 0.0;
  double need_m3_s = 0.0;
  for (const PlaceAnswer& place : answer.places) {
    if (place.need_m3_s) {
      need_m3_s += *place.need_m3_s;
      // What one trough gets beyond its need fills no other.
      got_m3_s += std::clamp(place.delivered_m3_s, 0.0, *place.need_m3_s);
    }
  }
  return need_m3_s > 0.0 ? std::optional(got_m3_s / need_m3_s) : std::nullopt;
}

double hours_dry(const SeasonAnswer& season) {
  double hours = 0.0;
  for (const TroughSeason& trough : season.troughs) {
    for (const MonthAtTrough& month : trough.months) {
      hours += month.dry_h;
    }
  }
  return hours;
}

std::optional<double> energy_used(const model::Farm& farm,
                                  const std::optional<SeasonAnswer>& season) {
  if (farm.pumps.empty()) {
    return 0.0;
  }
  if (!season) {
    return std::nullopt;
  }
  double energy_kWh = 0.0;
  for (const LifterSeason& lifter : season->lifters) {
    if (!lifter.is_ram && !lifter.energy_kWh) {
      return std::nullopt;
    }
    energy_kWh += lifter.energy_kWh.value_or(0.0);
  }
  return energy_kWh;
}

std::optional<double> water_wasted(const model::Farm& farm,
                                   const std::optional<SeasonAnswer>& season) {
  if (farm.rams.empty()) {
    return 0.0;
  }
  if (!season) {
    return std::nullopt;
  }
  double wasted_m3 = 0.0;
  for (const LifterSeason& lifter : season->lifters) {
    wasted_m3 += lifter.wasted_m3;
  }
  return wasted_m3;
}

/// One flag a code and place: the steady answer's, then what only the season found.
std::vector<Finding> all_flags(const ComparedFarm& compared) {
  std::vector<Finding> flags = compared.answer.flags;
  if (!compared.season) {
    return flags;
  }
  for (const Finding& found : compared.season->flags) {
    const auto same = std::find_if(flags.begin(), flags.end(), [&found](const Finding& flag) {
      return flag.code == found.code && flag.where == found.where;
    });
    if (same == flags.end()) {
      flags.push_back(found);
    }
  }
  std::stable_sort(flags.begin(), flags.end(), [](const Finding& a, const Finding& b) {
    return a.severity < b.severity;
  });
  return flags;
}

std::optional<StartingEffort> starting_effort(const model::Farm& farm,
                                              std::optional<model::Month> month) {
  PrimeOptions asked;
  asked.month = month;
  const PrimePlan plan = priming_plan(farm, asked);
  if (!plan.is_made()) {
    return std::nullopt;
  }
  StartingEffort effort;
  effort.need = plan.need;
  effort.water_m3 =
      plan.need == PrimeNeed::ByHand ? plan.course.volume_m3 * water_to_have_ready : 0.0;
  return effort;
}

ComparedFarm compared(const model::Farm& farm,
                      const CompareOptions& options,
                      std::optional<model::Month> month) {
  ComparedFarm found;
  SteadyOptions steady;
  steady.month = month;
  found.answer = solve_steady(farm, steady);
  found.parts = moving_parts(farm);
  if (!found.answer.converged) {
    found.problems = found.answer.problems;
    return found;
  }
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    found.flow_m3_s += water_got_m3_s(farm.places[i], found.answer.places[i]);
  }
  found.met = share_met(found.answer);
  SeasonAnswer run = run_season(farm, options.season);
  if (run.converged) {
    found.dry_h = hours_dry(run);
    found.season = std::move(run);
  } else {
    found.season_problems = std::move(run.problems);
  }
  found.energy_kWh = energy_used(farm, found.season);
  found.wasted_m3 = water_wasted(farm, found.season);
  found.starting = starting_effort(farm, month);
  found.flags = all_flags(found);
  return found;
}

}  // namespace

double water_got_m3_s(const model::Place& place, const PlaceAnswer& answer) {
  return model::is_point_of_use(place) ? std::max(answer.delivered_m3_s, 0.0) : 0.0;
}

std::optional<model::Date> first_dry_of(const ComparedFarm& compared, std::size_t place) {
  if (!compared.season) {
    return std::nullopt;
  }
  for (const TroughSeason& trough : compared.season->troughs) {
    if (trough.place == place) {
      return trough.first_dry;
    }
  }
  return std::nullopt;
}

Comparison compare_farms(const std::vector<const model::Farm*>& farms,
                         const CompareOptions& options) {
  Comparison comparison;
  comparison.month = common_month(farms, options);
  for (const model::Farm* const farm : farms) {
    comparison.farms.push_back(compared(*farm, options, comparison.month));
  }
  return comparison;
}

}  // namespace leat::solver
