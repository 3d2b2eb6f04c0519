#include "solver/flow/pumps_and_rams.h"

#include <algorithm>

#include "model/quantity/conversion.h"
#include "solver/hydrology/ram.h"

namespace leat::solver {

namespace {

/// Seconds a day, all of them where the file does not say.
double running_s(const model::Pump& pump) {
  if (pump.hours_a_day) {
    return in_seconds(*pump.hours_a_day);
  }
  if (pump.runs.empty()) {
    return seconds_per_day;
  }
  double sum = 0.0;
  for (const model::ClockRange& range : pump.runs) {
    const double span = in_seconds(range.to) - in_seconds(range.from);
    sum += span > 0.0 ? span : span + seconds_per_day;
  }
  return sum;
}

LifterAnswer pump_answer(const FlowState& state, std::size_t index) {
  const model::Pump& pump = state.farm->pumps[index];
  const PumpEdge& made = state.network->pumps[index];
  const nodal::Edge& edge = state.network->problem.edges[made.edge];
  const hydrology::PumpCurve& curve = state.network->pump_curves[index];
  LifterAnswer answer;
  answer.name = pump.name;
  answer.running_s = running_s(pump);
  answer.flow_m3_s = unless_still(state.flow_m3_s(made.edge));
  const std::optional<double> up = state.head_m(edge.up);
  const std::optional<double> down = state.head_m(edge.down);
  if (answer.flow_m3_s == 0.0) {
    answer.shut_off_short =
        !edge.closed && up.has_value() && state.options.load_case != LoadCase::Static;
    return answer;
  }
  if (up && down) {
    answer.head_m = *down - *up;
  }
  answer.beyond_curve = answer.flow_m3_s > curve.run_out_flow_m3_s();
  answer.before_curve = answer.flow_m3_s < in_cubic_metres_per_second(pump.curve.front().first);
  if (pump.efficiency && answer.head_m) {
    answer.power_W = hydrology::pump_power_W(answer.flow_m3_s,
                                             std::max(*answer.head_m, 0.0),
                                             *pump.efficiency,
                                             state.surroundings.water.density_kg_m3);
  }
  return answer;
}

LifterAnswer ram_answer(const FlowState& state, std::size_t index) {
  const RamEdges& made = state.network->rams[index];
  const nodal::Problem& problem = state.network->problem;
  const nodal::Edge& edge = problem.edges[made.delivery_edge];
  const nodal::Edge& inlet = problem.edges[made.drive_edge];
  LifterAnswer answer;
  answer.name = state.farm->rams[index].name;
  answer.is_ram = true;
  const double drive = unless_still(state.flow_m3_s(made.drive_edge));
  answer.flow_m3_s = drive > 0.0 ? unless_still(state.flow_m3_s(made.delivery_edge)) : 0.0;
  answer.wasted_m3_s = std::max(0.0, drive - answer.flow_m3_s);
  const std::optional<double> supply = edge.supply == nodal::outside
                                           ? std::optional<double>(edge.supply_level_m)
                                           : state.head_m(edge.supply);
  if (supply) {
    answer.fall_m = *supply - edge.level_m;
  }
  if (drive > 0.0) {
    if (const std::optional<double> head = state.head_m(edge.down)) {
      answer.head_m = *head - edge.level_m;
    }
    answer.set_by_hand =
        inlet.kind == nodal::EdgeKind::CappedDischarge && drive > inlet.limit_m3_s * (1.0 - 1e-6);
  }
  return answer;
}

}  // namespace

std::vector<LifterAnswer> lifter_answers(const FlowState& state) {
  std::vector<LifterAnswer> answers;
  for (std::size_t i = 0; i < state.farm->pumps.size(); ++i) {
    answers.push_back(pump_answer(state, i));
  }
  for (std::size_t i = 0; i < state.farm->rams.size(); ++i) {
    answers.push_back(ram_answer(state, i));
  }
  return answers;
}

}  // namespace leat::solver
