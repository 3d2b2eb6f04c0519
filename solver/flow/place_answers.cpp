#include "solver/flow/place_answers.h"

#include <algorithm>
#include <cmath>

#include "model/catalogue/need.h"

namespace leat::solver {

namespace {

constexpr double spring_box_rise_m = 0.01;

/// Water that the pipes bring to a place, less what they take from it [m3/s].
std::vector<double> net_inflows(const FlowState& state) {
  const model::Farm& farm = *state.farm;
  std::vector<double> inflow(farm.places.size(), 0.0);
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    const PipeEdges& edges = state.network->pipes[i];
    // A vent that spills makes the flows at the two ends differ.
    inflow[farm.pipes[i].to] += state.flow_m3_s(edges.stretch_edge.back());
    inflow[farm.pipes[i].from] -= state.flow_m3_s(edges.stretch_edge.front());
  }
  // A ram only stands at its place: what drives it runs to waste, what it lifts goes on.
  for (std::size_t i = 0; i < farm.rams.size(); ++i) {
    const RamEdges& ram = state.network->rams[i];
    inflow[farm.pipes[farm.rams[i].drive].to] -= state.flow_m3_s(ram.drive_edge);
    inflow[farm.pipes[farm.rams[i].delivery].from] += state.flow_m3_s(ram.delivery_edge);
  }
  for (std::size_t i = 0; i < farm.pumps.size(); ++i) {
    const double pumped = state.flow_m3_s(state.network->pumps[i].edge);
    inflow[farm.pumps[i].from] -= pumped;
    inflow[farm.pumps[i].to] += pumped;
  }
  return inflow;
}

void read_spring(const FlowState& state,
                 const model::Place& spring,
                 const PlaceNode& node,
                 PlaceAnswer& answer) {
  const double taken = state.flow_m3_s(node.supply_edge);
  const double yield = in_cubic_metres_per_second(model::yield_of(spring)->at(state.options.month));
  answer.delivered_m3_s = -taken;
  answer.spill_m3_s = unless_still(std::max(0.0, yield - taken));
  const double overflow_m = in_metres(model::level_of(spring, state.options.month));
  answer.level_m = std::clamp(answer.head_m.value_or(overflow_m),
                              std::min(in_metres(*model::intake_of(spring)), overflow_m),
                              overflow_m + spring_box_rise_m);
  if (unless_still(taken) == 0.0) {
    answer.head_m = answer.level_m;  // nothing runs: the pipe's mouth stands as the box does
  }
}

void read_tank(const FlowState& state,
               const model::Place& tank,
               const PlaceNode& node,
               PlaceAnswer& answer) {
  if (!model::settles(tank)) {
    answer.level_m = surface_m(tank, state.options.month);
    return;
  }
  const double floor_m = in_metres(model::level_of(tank, state.options.month));
  const double full_m = in_metres(*model::brim_of(tank));
  answer.spill_m3_s = unless_still(std::max(0.0, state.flow_m3_s(node.spill_edge)));
  answer.level_m = std::clamp(answer.head_m.value_or(floor_m), floor_m, full_m);
  if (answer.head_m) {
    answer.head_m = std::max(*answer.head_m, floor_m);
  }
}

PlaceAnswer read_place(const FlowState& state, std::size_t index, double inflow) {
  const model::Place& place = state.farm->places[index];
  const PlaceNode& node = state.network->places[index];
  PlaceAnswer answer;
  answer.elevation_m = elevation_of(place, state.options.month);
  answer.head_m = state.head_m(node.node);
  answer.need_m3_s = need_of(*state.farm, place, state.options.month);
  if (model::is_spring(place)) {
    read_spring(state, place, node, answer);
  } else if (model::is_tank(place)) {
    read_tank(state, place, node, answer);
    answer.delivered_m3_s = inflow;
  } else if (model::is_open_water(place)) {
    answer.level_m = answer.head_m;
    answer.delivered_m3_s = inflow;
  } else if (node.discharge_edge != no_index) {
    answer.delivered_m3_s = std::max(0.0, state.flow_m3_s(node.discharge_edge));
  }
  answer.delivered_m3_s = unless_still(answer.delivered_m3_s);
  if (answer.head_m && !state.air_at.empty() && state.air_at[index]) {
    // Water runs through part full, open to the air: the head is that of its own surface.
    answer.head_m = answer.elevation_m;
  }
  if (!model::is_open_water(place) && answer.head_m) {
    answer.pressure_Pa =
        state.surroundings.pressure_of_head_Pa(*answer.head_m - answer.elevation_m);
  }
  if (answer.need_m3_s) {
    answer.met =
        *answer.need_m3_s > 0.0 ? std::min(1.0, answer.delivered_m3_s / *answer.need_m3_s) : 1.0;
  }
  return answer;
}

/// The summits of a pipe with the absolute head at each.
std::vector<SummitAnswer> read_summits(const FlowState& state,
                                       std::size_t pipe,
                                       double air_reach_m) {
  const PipeEdges& edges = state.network->pipes[pipe];
  const Surroundings& around = state.surroundings;
  const double bore_m = in_metres(state.farm->pipes[pipe].size.bore);
  const double air_head_m = around.head_of_pressure_m(around.air_pressure_Pa);
  const double vapour_head_m = around.head_of_pressure_m(around.water.vapour_pressure_Pa);
  std::vector<SummitAnswer> summits;
  for (std::size_t i = 0; i < edges.cut.breaks.size(); ++i) {
    const Break& found = edges.cut.breaks[i];
    if (!found.is_summit) {
      continue;
    }
    SummitAnswer summit;
    summit.at_m = found.point.at_m;
    summit.elevation_m = found.point.elevation_m;
    const double flow = state.flow_m3_s(edges.break_edge[i]);
    const bool forward = flow >= 0.0;
    const std::size_t up = forward ? edges.end_node[i] : edges.start_node[i + 1];
    if (const std::optional<double> head = state.head_m(up)) {
      summit.absolute_head_m =
          *head - summit.elevation_m - hydraulics::velocity_head_m(bore_m, flow) + air_head_m;
      const bool in_air = found.point.along_m <= air_reach_m;
      const bool lets_go = !in_air && state.is_parted(edges.break_edge[i]);
      if (in_air) {
        summit.absolute_head_m = air_head_m;
      }
      if (lets_go) {
        // The solver's small linear join loss is not the water's.
        const double floor = found.kind == Break::Kind::Vent ? air_head_m : vapour_head_m;
        summit.absolute_head_m = std::max(*summit.absolute_head_m, floor);
      }
      summit.margin_m = *summit.absolute_head_m - vapour_head_m;
      summit.parted = lets_go && found.kind == Break::Kind::Summit;
    }
    summits.push_back(summit);
  }
  return summits;
}

}  // namespace

std::optional<double> need_of(const model::Farm& farm,
                              const model::Place& place,
                              std::optional<model::Month> month) {
  using Need = std::optional<Flow>;
  const Need need = std::visit(
      Overload{
          [&](const model::Trough& trough) { return model::need_rate(trough, farm.air, month); },
          [&](const model::Outlet& outlet) {
            return outlet.wished ? Need(outlet.wished->at(month)) : std::nullopt;
          },
          [](const model::
                 AnyOf<model::Spring, model::Creek, model::Pond, model::Tank, model::Tee> auto&)
              -> Need { return std::nullopt; }},
      place.data);
  return need ? std::optional(in_cubic_metres_per_second(*need)) : std::nullopt;
}

bool need_varies(const model::Farm& farm, const model::Place& place) {
  return std::visit(
      Overload{
          [&](const model::Trough& trough) { return model::need_varies(trough, farm.air); },
          [](const model::Outlet& outlet) { return outlet.wished && outlet.wished->varies; },
          [](const model::
                 AnyOf<model::Spring, model::Creek, model::Pond, model::Tank, model::Tee> auto&) {
            return false;
          }},
      place.data);
}

double elevation_of(const model::Place& place, std::optional<model::Month> month) {
  return in_metres(model::level_of(place, month));
}

std::vector<PlaceAnswer> place_answers(const FlowState& state) {
  const std::vector<double> inflows = net_inflows(state);
  std::vector<PlaceAnswer> answers;
  for (std::size_t i = 0; i < state.farm->places.size(); ++i) {
    answers.push_back(read_place(state, i, inflows[i]));
  }
  return answers;
}

PipeAnswer pipe_answer(const FlowState& state, std::size_t index) {
  const model::Pipe& pipe = state.farm->pipes[index];
  const PipeEdges& edges = state.network->pipes[index];
  const double bore_m = in_metres(pipe.size.bore);
  const double area_m2 = in_square_metres(bore_area(metres(bore_m)));
  PipeAnswer answer;
  answer.flow_m3_s = unless_still(state.pipe_flow_m3_s(index));
  answer.velocity_m_s = answer.flow_m3_s / area_m2;
  answer.reynolds =
      std::abs(answer.velocity_m_s) * bore_m / state.surroundings.water.kinematic_viscosity_m2_s;
  const PipeWater water = water_along(state, index);
  if (!water.points.empty()) {
    double loss_m = 0.0;
    // Behind a vent that spills water may run although the pipe's start is still.
    for (std::size_t i = 0; i < edges.stretch_edge.size(); ++i) {
      const double stretch_flow = state.flow_m3_s(edges.stretch_edge[i]);
      if (unless_still(stretch_flow) == 0.0) {
        continue;
      }
      loss_m += state.network->problem.loss(edges.stretch_edge[i], stretch_flow).loss_m;
      loss_m += stretch_flow > 0.0 ? edges.cut.stretches[i].opening_head_m : 0.0;
    }
    answer.head_loss_m = loss_m;
    const auto lower = [](const PipePoint& a, const PipePoint& b) {
      return a.pressure_Pa < b.pressure_Pa;
    };
    const auto lowest = std::min_element(water.points.begin(), water.points.end(), lower);
    const auto highest = std::max_element(water.points.begin(), water.points.end(), lower);
    answer.lowest_pressure_Pa = lowest->pressure_Pa;
    answer.lowest_at_m = lowest->at_m;
    answer.highest_pressure_Pa = highest->pressure_Pa;
    answer.part_full_m = water.part_full_m;
  }
  answer.summits = read_summits(state, index, water.air_reach_m);
  for (const SummitAnswer& summit : answer.summits) {
    const bool worse = summit.margin_m && (!answer.summit || !answer.summit->margin_m ||
                                           *summit.margin_m < *answer.summit->margin_m);
    if (!answer.summit || worse) {
      answer.summit = summit;
    }
  }
  return answer;
}

std::vector<PipeAnswer> pipe_answers(const FlowState& state) {
  std::vector<PipeAnswer> answers;
  for (std::size_t i = 0; i < state.farm->pipes.size(); ++i) {
    answers.push_back(pipe_answer(state, i));
  }
  return answers;
}

}  // namespace leat::solver
