#include "solver/findings/states.h"

#include <algorithm>
#include <cmath>

#include "solver/findings/judging.h"
#include "solver/findings/trapped_air_finding.h"

namespace leat::solver {

namespace {

/// Static pressures come from the network of the static case: it has no broken lines in it.
std::vector<std::optional<StaticPressure>> static_pressures_of(
    const model::Farm& farm, const std::vector<SolvedCase>& cases) {
  const auto still = std::find_if(
      cases.begin(), cases.end(), [](const SolvedCase& one) { return one.is_static(); });
  const FlowState& state = still->state;
  std::vector<std::optional<double>> heads_m(state.network->problem.nodes.size());
  for (std::size_t i = 0; i < heads_m.size(); ++i) {
    heads_m[i] = state.head_m(i);
  }
  return highest_static_pressures(farm, *state.network, state.surroundings, heads_m);
}

PipeState state_of(const PipeAnswer& water, bool over_rating) {
  const auto parted = [](const SummitAnswer& summit) { return summit.parted; };
  const bool suction = water.lowest_pressure_Pa && *water.lowest_pressure_Pa < -suction_limit_Pa;
  return std::any_of(water.summits.begin(), water.summits.end(), parted) ? PipeState::Parted
         : std::any_of(water.summits.begin(), water.summits.end(), is_near_vapour)
             ? PipeState::NearVapour
         : over_rating                                 ? PipeState::OverRating
         : water.flow_m3_s < -still_flow_m3_s          ? PipeState::Backwards
         : water.part_full_m > 0.0                     ? PipeState::PartFull
         : suction                                     ? PipeState::Suction
         : std::abs(water.flow_m3_s) < still_flow_m3_s ? PipeState::Still
                                                       : PipeState::Ok;
}

PlaceState state_of(const Judging& on, std::size_t index) {
  const SolvedCase& solved = on.chosen();
  const PlaceAnswer& water = solved.places[index];
  const PlaceSight sight = sight_of(on, solved, index);
  const std::vector<BrokenLine>& lines = solved.happenings.broken_lines;
  const bool breaks = std::any_of(
      lines.begin(), lines.end(), [&](const BrokenLine& line) { return line.spring == index; });
  const bool cut_off = !model::is_open_water(on.farm.places[index]) && !water.head_m;
  const bool dry = (water.met && *water.met < dry_limit) || cut_off;
  return sight.is_below_vapour()                                   ? PlaceState::BelowVapour
         : sight.is_near_vapour()                                  ? PlaceState::NearVapour
         : breaks                                                  ? PlaceState::Breaks
         : dry                                                     ? PlaceState::Dry
         : water.met && *water.met < met_limit                     ? PlaceState::Starved
         : is_drawn_down(on, solved, index)                        ? PlaceState::DrawnDown
         : sight.is_in_suction                                     ? PlaceState::Suction
         : water.spill_m3_s && *water.spill_m3_s > still_flow_m3_s ? PlaceState::Spilling
                                                                   : PlaceState::Ok;
}

}  // namespace

void judge(const model::Farm& farm, std::vector<SolvedCase>& cases, SteadyAnswer& answer) {
  FindingList findings;
  const auto static_pressures = static_pressures_of(farm, cases);
  const Surroundings& around = cases.front().state.surroundings;
  const Judging on{farm,
                   cases,
                   static_pressures,
                   findings,
                   around.head_of_pressure_m(around.air_pressure_Pa),
                   around.head_of_pressure_m(around.water.vapour_pressure_Pa)};
  judge_happenings(on);
  judge_summits(on);
  const std::vector<bool> over_rating = judge_pressure(on);
  judge_collapse(on);
  judge_unknown_strength(on);
  judge_suction(on);
  judge_intakes(on);
  judge_back_flow(on);
  judge_back_siphonage(on);
  judge_shares(on);
  answer.places = on.chosen().places;
  answer.pipes = on.chosen().pipes;
  for (std::size_t i = 0; i < answer.pipes.size(); ++i) {
    answer.pipes[i].state = state_of(answer.pipes[i], over_rating[i]);
  }
  for (std::size_t i = 0; i < answer.places.size(); ++i) {
    answer.places[i].state = state_of(on, i);
  }
  for (Finding& found : air_findings(farm, answer)) {
    findings.raise(std::move(found));
  }
  answer.flags = std::move(findings).sorted();
}

}  // namespace leat::solver
