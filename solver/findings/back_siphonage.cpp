#include <cstddef>
#include <vector>

#include "solver/findings/judging.h"
#include "solver/findings/route.h"
#include "solver/findings/states.h"

namespace leat::solver {

namespace {

/// A float under water whose line stands below the trough: the trough empties into the line.
void judge_drowned_float(const Judging& on, const SolvedCase& solved, std::size_t index) {
  const model::Pipe& pipe = on.farm.pipes[index];
  const model::Place& place = on.farm.places[pipe.to];
  const auto* trough = std::get_if<model::Trough>(&place.data);
  if (trough == nullptr || trough->enters != model::TroughEntry::UnderWater) {
    return;
  }
  const PipeStretches& cut = solved.state.network->pipes[index].cut;
  const PlaceAnswer& water = solved.places[pipe.to];
  if (is_one_way(cut) || has_shut_valve(cut) || !water.head_m ||
      water.delivered_m3_s > still_flow_m3_s) {
    return;
  }
  const double below_m = water.elevation_m - *water.head_m;
  if (solved.state.surroundings.pressure_of_head_Pa(below_m) <= suction_limit_Pa) {
    return;
  }
  on.findings.raise(made_finding(Code::BackSiphonage,
                                 Severity::Danger,
                                 place.name,
                                 solved.load_case,
                                 {-below_m, 0.0, Measure::Length},
                                 FloatUnderWater{pipe.name}),
                    Worse::Lower);
}

/// Whether water that leaves a place reaches another by running pipes.
bool runs_to(const Judging& on, const SolvedCase& solved, std::size_t from, std::size_t to) {
  std::vector<bool> seen(on.farm.places.size(), false);
  std::vector<std::size_t> open{from};
  seen[from] = true;
  while (!open.empty()) {
    const std::size_t here = open.back();
    open.pop_back();
    if (here == to) {
      return true;
    }
    if (here != from && model::is_open_water(on.farm.places[here])) {
      continue;
    }
    for (const std::size_t i : solved.state.network->pipes_of.at(here)) {
      const double flow = solved.pipes[i].flow_m3_s;
      const model::Pipe& pipe = on.farm.pipes[i];
      const bool leaves = (flow > still_flow_m3_s && pipe.from == here) ||
                          (flow < -still_flow_m3_s && pipe.to == here);
      const std::size_t next = pipe.from == here ? pipe.to : pipe.from;
      if (leaves && !seen[next]) {
        seen[next] = true;
        open.push_back(next);
      }
    }
  }
  return false;
}

/// A pond at a pipe's end that is drawn back into the line of a household.
void judge_drawn_pond(const Judging& on, const SolvedCase& solved, std::size_t house) {
  for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
    const model::Pipe& pipe = on.farm.pipes[i];
    const bool draws_back = solved.pipes[i].flow_m3_s < -still_flow_m3_s &&
                            model::is_open_water(on.farm.places[pipe.to]);
    if (draws_back && runs_to(on, solved, pipe.from, house)) {
      on.findings.raise(made_finding(Code::BackSiphonage,
                                     Severity::Danger,
                                     on.farm.places[house].name,
                                     solved.load_case,
                                     {solved.pipes[i].flow_m3_s, 0.0, Measure::Flow},
                                     PondDrawnBack{on.farm.places[pipe.to].name, pipe.name}),
                        Worse::Lower);
    }
  }
}

/// A household on a line that runs below air pressure somewhere on its way from open water.
void judge_household_line(const Judging& on, const SolvedCase& solved, std::size_t house) {
  for (const RouteStep& step : route_to_open_water(solved.state, house)) {
    const PipeAnswer& water = solved.pipes[step.pipe];
    if (!water.lowest_pressure_Pa || *water.lowest_pressure_Pa >= -suction_limit_Pa) {
      continue;
    }
    on.findings.raise(
        made_finding(Code::BackSiphonage,
                     Severity::Danger,
                     on.farm.places[house].name,
                     solved.load_case,
                     {*water.lowest_pressure_Pa, -suction_limit_Pa, Measure::Pressure},
                     HouseholdInSuction{on.farm.pipes[step.pipe].name, *water.lowest_at_m}),
        Worse::Lower);
  }
}

}  // namespace

void judge_back_siphonage(const Judging& on) {
  for (const SolvedCase& solved : on.cases) {
    for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
      judge_drowned_float(on, solved, i);
    }
    for (std::size_t i = 0; i < on.farm.places.size(); ++i) {
      const auto* outlet = std::get_if<model::Outlet>(&on.farm.places[i].data);
      if (outlet != nullptr && outlet->household) {
        judge_drawn_pond(on, solved, i);
        judge_household_line(on, solved, i);
      }
    }
  }
}

}  // namespace leat::solver
