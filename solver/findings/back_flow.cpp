#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "solver/findings/judging.h"
#include "solver/findings/states.h"

namespace leat::solver {

namespace {

constexpr double level_rounding_m = 1e-6;

/// How far the water at the far end of a pipe can drain through it: to the pipe's end there; none
/// where that lies no lower.
std::optional<double> drains_to_m(const Judging& on,
                                  const SolvedCase& solved,
                                  const model::Pipe& pipe) {
  const std::optional<double>& level = solved.places[pipe.to].level_m;
  const double end_m = in_metres(model::to_end_level(on.farm, pipe, on.month()));
  return level && end_m < *level - level_rounding_m ? std::optional(end_m) : std::nullopt;
}

/// Between two tees a direction is only a way of writing; into open water it is not.
void judge_backwards(const Judging& on, const SolvedCase& solved, std::size_t index) {
  const model::Pipe& pipe = on.farm.pipes[index];
  const PipeAnswer& water = solved.pipes[index];
  const model::Place& source = on.farm.places[pipe.from];
  const model::Place& end = on.farm.places[pipe.to];
  const bool drains = model::is_open_water(end);
  if (water.flow_m3_s >= -still_flow_m3_s || (!model::is_open_water(source) && !drains)) {
    return;
  }
  on.findings.raise(
      made_finding(Code::Backwards,
                   Severity::Caution,
                   pipe.name,
                   solved.load_case,
                   {water.flow_m3_s, 0.0, Measure::Flow},
                   drains ? RunsBackwards{end.name, true, drains_to_m(on, solved, pipe)}
                          : RunsBackwards{source.name, false, std::nullopt}),
      Worse::Lower);
}

/// The lowest that the water at a pipe's start can fall, and when.
struct LowWater {
  double level_m = 0.0;
  std::optional<model::Month> month;  // empty: when it is drawn down to the pipe's mouth
};

std::optional<LowWater> lowest_in_year(const model::MonthSeries<Elevation>& surface) {
  const auto lowest = std::min_element(surface.by_month.begin(), surface.by_month.end());
  const auto highest = std::max_element(surface.by_month.begin(), surface.by_month.end());
  if (!(*lowest < *highest)) {
    return std::nullopt;
  }
  // Of months as low as each other a measured one, not one filled in from its neighbours.
  std::size_t month = static_cast<std::size_t>(lowest - surface.by_month.begin());
  for (std::size_t i = month; i < surface.by_month.size(); ++i) {
    const bool as_low = !(*lowest < surface.by_month[i]);
    if (as_low && !surface.assumed_at(static_cast<model::Month>(i))) {
      month = i;
      break;
    }
  }
  return LowWater{in_metres(*lowest), static_cast<model::Month>(month)};
}

/// A creek falls as its months say; a pond or tank also when it is drawn down to a mouth in it.
std::optional<LowWater> low_water_at(const Judging& on, const model::Pipe& leaving) {
  const model::Place& place = on.farm.places[leaving.from];
  if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
    return lowest_in_year(creek->surface);
  }
  const LowWater at_mouth{in_metres(model::from_end_level(on.farm, leaving, on.month())),
                          std::nullopt};
  if (std::holds_alternative<model::Tank>(place.data)) {
    return at_mouth;
  }
  const auto* pond = std::get_if<model::Pond>(&place.data);
  if (pond == nullptr) {
    return std::nullopt;
  }
  const bool mouth_known = !leaving.path.empty() || pond->intake.has_value();
  return mouth_known ? at_mouth : lowest_in_year(pond->surface);
}

/// Pipes out of open water through which water could come back from `first`'s start: `first`
/// itself, or those beyond tees, against no one-way and through no shut valve.
std::vector<std::size_t> ways_back(const Judging& on, std::size_t first) {
  const FarmNetwork& network = *on.chosen().state.network;
  const std::vector<PipeEdges>& edges = network.pipes;
  std::vector<std::size_t> ways;
  std::vector<bool> seen(on.farm.pipes.size(), false);
  std::vector<std::size_t> open{first};
  seen[first] = true;
  while (!open.empty()) {
    const std::size_t here = open.back();
    open.pop_back();
    const std::size_t place = on.farm.pipes[here].from;
    if (model::is_open_water(on.farm.places[place])) {
      ways.push_back(here);
      continue;
    }
    for (const std::size_t i : network.pipes_of.at(place)) {
      const bool leads_here = on.farm.pipes[i].to == place;
      if (leads_here && !seen[i] && !is_one_way(edges[i].cut) && !has_shut_valve(edges[i].cut)) {
        seen[i] = true;
        open.push_back(i);
      }
    }
  }
  return ways;
}

/// Says of a drowned end what drains back through it when the water above falls. It runs the right
/// way today.
void judge_falling_level(const Judging& on, std::size_t index) {
  const model::Pipe& pipe = on.farm.pipes[index];
  const PipeStretches& cut = on.chosen().state.network->pipes[index].cut;
  const std::optional<double> surface = surface_m(on.farm.places[pipe.to], on.month());
  if (!model::is_open_water(on.farm.places[pipe.to]) || !surface || is_one_way(cut) ||
      has_shut_valve(cut)) {
    return;
  }
  const bool runs_back = std::any_of(on.cases.begin(), on.cases.end(), [&](const SolvedCase& one) {
    return one.pipes[index].flow_m3_s < -still_flow_m3_s;
  });
  if (runs_back) {
    return;
  }
  for (const std::size_t way : ways_back(on, index)) {
    const model::Pipe& leaving = on.farm.pipes[way];
    const std::optional<LowWater> low = low_water_at(on, leaving);
    if (!low || leaving.from == pipe.to) {
      continue;
    }
    const std::optional<model::Month> when = low->month ? low->month : on.month();
    const double drained_from_m = *surface_m(on.farm.places[pipe.to], when);
    const double end_m = in_metres(model::to_end_level(on.farm, pipe, when));
    const double mouth_m = in_metres(model::from_end_level(on.farm, leaving, when));
    const double drains_to_m = std::max({low->level_m, end_m, mouth_m});
    if (drains_to_m >= drained_from_m - level_rounding_m) {
      continue;
    }
    Finding found = made_finding(Code::Backwards,
                                 Severity::Caution,
                                 pipe.name,
                                 on.chosen().load_case,
                                 {drains_to_m - drained_from_m, 0.0, Measure::Length},
                                 DrainsBack{on.farm.places[leaving.from].name,
                                            on.farm.places[pipe.to].name,
                                            low->level_m,
                                            drained_from_m,
                                            drains_to_m});
    found.month = low->month;
    on.findings.raise(std::move(found), Worse::Lower);
  }
}

}  // namespace

void judge_back_flow(const Judging& on) {
  for (const SolvedCase& solved : on.cases) {
    for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
      judge_backwards(on, solved, i);
    }
  }
  for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
    judge_falling_level(on, i);
  }
}

}  // namespace leat::solver
