#include "solver/flow_state.h"

#include <algorithm>
#include <cmath>

#include "solver/hydraulics/head_loss.h"

namespace leat::solver {

namespace {

using nodal::Edge;
using nodal::EdgeKind;

/// Two sides of a summit further apart than this have parted.
constexpr double parted_gap_m = 1e-6;

/// Heads are known from open water outwards, through pipes that run and through still ones that
/// are open both ways.
std::vector<bool> known_heads(const FlowState& state) {
  const nodal::Problem& problem = state.network->problem;
  std::vector<std::vector<std::size_t>> neighbours(problem.nodes.size());
  for (std::size_t i = 0; i < problem.edges.size(); ++i) {
    const Edge& edge = problem.edges[i];
    if (edge.closed || edge.up == nodal::outside || edge.down == nodal::outside) {
      continue;
    }
    const bool runs = std::abs(state.flow_m3_s(i)) >= still_flow_m3_s;
    const bool open_both_ways =
        edge.kind == EdgeKind::Link || (edge.kind == EdgeKind::Crest && !state.is_parted(i));
    if (runs || open_both_ways) {
      neighbours[edge.up].push_back(edge.down);
      neighbours[edge.down].push_back(edge.up);
    }
  }
  std::vector<bool> known(problem.nodes.size(), false);
  std::vector<std::size_t> open;
  for (std::size_t i = 0; i < state.farm->places.size(); ++i) {
    const std::size_t node = state.network->places[i].node;
    if (model::is_open_water(state.farm->places[i]) &&
        !std::isnan(state.solution.state.head_m[node])) {
      known[node] = true;
      open.push_back(node);
    } else if (problem.nodes[node].fixed_head_m) {
      known[node] = true;
      open.push_back(node);
    }
  }
  while (!open.empty()) {
    const std::size_t node = open.back();
    open.pop_back();
    for (const std::size_t next : neighbours[node]) {
      if (!known[next]) {
        known[next] = true;
        open.push_back(next);
      }
    }
  }
  return known;
}

/// What a placed loss takes from the water at a flow [m].
double placed_loss_m(const PlacedLoss& loss, double bore_m, double flow_m3_s) {
  const double k = flow_m3_s >= 0.0 ? loss.forward_k : loss.backward_k;
  const double velocity_head = hydraulics::velocity_head_m(bore_m, flow_m3_s);
  const double head = k * std::max(velocity_head, loss.least_velocity_head_m) + loss.opening_head_m;
  return flow_m3_s >= 0.0 ? head : -head;
}

/// Walks one stretch and appends its points.
void walk_stretch(const FlowState& state,
                  const PipeEdges& pipe,
                  std::size_t index,
                  double bore_m,
                  std::vector<PipePoint>& points) {
  const Stretch& stretch = pipe.cut.stretches[index];
  const double flow = state.flow_m3_s(pipe.stretch_edge[index]);
  const double velocity_head = hydraulics::velocity_head_m(bore_m, flow);
  const double length_m = stretch.end.along_m - stretch.start.along_m;
  const double start_head = *state.head_m(pipe.start_node[index]);
  const double end_head = *state.head_m(pipe.end_node[index]);
  // What the stretch as a whole loses is the solver's; placed losses take their part where they
  // stand, the rest lies evenly along the pipe.
  double placed_total = 0.0;
  for (const PlacedLoss& loss : stretch.placed) {
    placed_total += placed_loss_m(loss, bore_m, flow);
  }
  const bool runs = std::abs(flow) >= still_flow_m3_s;
  const double total = runs ? start_head - end_head : 0.0;
  const double even = runs ? total - placed_total : 0.0;
  double placed_so_far = 0.0;
  const auto add = [&](const CoursePoint& point) {
    const double share = length_m > 0.0 ? (point.along_m - stretch.start.along_m) / length_m : 0.0;
    const double head = start_head - even * share - placed_so_far;
    points.push_back(
        {point.at_m,
         point.along_m,
         point.elevation_m,
         head,
         state.surroundings.pressure_of_head_Pa(head - point.elevation_m - velocity_head)});
  };
  std::vector<CoursePoint> course{stretch.start};
  for (const CoursePoint& point : pipe.cut.course.points) {
    if (point.along_m > stretch.start.along_m && point.along_m < stretch.end.along_m) {
      course.push_back(point);
    }
  }
  course.push_back(stretch.end);
  std::size_t next = 0;
  for (const CoursePoint& point : course) {
    const bool is_start = point.along_m == stretch.start.along_m;
    while (next < stretch.placed.size() && stretch.placed[next].at_m <= point.at_m) {
      const PlacedLoss& loss = stretch.placed[next];
      const CoursePoint where = pipe.cut.course.at(loss.at_m);
      const double taken = runs ? placed_loss_m(loss, bore_m, flow) : 0.0;
      // Outside the pipe there is no pressure of the pipe: an entrance's loss comes before the
      // first point, an exit's after the last.
      const bool is_pipe_start =
          index == 0 && where.along_m <= pipe.cut.course.points.front().along_m;
      const bool is_pipe_end = index + 1 == pipe.cut.stretches.size() &&
                               where.along_m >= pipe.cut.course.points.back().along_m;
      if (taken != 0.0 && !is_pipe_start && !is_pipe_end) {
        add(where);
        placed_so_far += taken;
        add(where);
      } else if (is_pipe_end) {
        add(where);
        placed_so_far += taken;
      } else {
        placed_so_far += taken;
      }
      ++next;
    }
    if (is_start || point.along_m < stretch.end.along_m || points.empty() ||
        points.back().along_m < point.along_m) {
      add(point);
    }
  }
}

/// Marks reaches where the grade line computed for a full pipe lies below the pipe as part full,
/// from `first` on as long as that holds, at `floor_Pa` gauge. Returns the length.
double mark_part_full(std::vector<PipePoint>& points, std::size_t first, double floor_Pa) {
  double length_m = 0.0;
  for (std::size_t i = first; i < points.size(); ++i) {
    if (points[i].pressure_Pa >= floor_Pa) {
      break;
    }
    if (i + 1 < points.size()) {
      const double here = points[i].pressure_Pa - floor_Pa;
      const double there = points[i + 1].pressure_Pa - floor_Pa;
      const double span = points[i + 1].along_m - points[i].along_m;
      length_m += there > 0.0 ? span * (-here) / (there - here) : span;
    }
    points[i].pressure_Pa = floor_Pa;
    if (i + 1 < points.size() && points[i + 1].pressure_Pa >= floor_Pa) {
      break;
    }
  }
  return length_m;
}

}  // namespace

std::optional<double> FlowState::head_m(std::size_t node) const {
  const std::optional<double>& fixed = network->problem.nodes[node].fixed_head_m;
  if (fixed) {
    return fixed;
  }
  if (!head_known[node] || std::isnan(solution.state.head_m[node])) {
    return std::nullopt;
  }
  return solution.state.head_m[node];
}

double FlowState::flow_m3_s(std::size_t edge) const {
  return solution.state.flow_m3_s[edge];
}

double FlowState::pipe_flow_m3_s(std::size_t pipe) const {
  return flow_m3_s(network->pipes[pipe].stretch_edge.front());
}

bool FlowState::is_running(std::size_t pipe) const {
  return std::abs(pipe_flow_m3_s(pipe)) >= still_flow_m3_s;
}

bool FlowState::is_parted(std::size_t break_edge) const {
  const Edge& edge = network->problem.edges[break_edge];
  const double up = solution.state.head_m[edge.up];
  const double down = solution.state.head_m[edge.down];
  if (std::isnan(up) || std::isnan(down)) {
    return false;
  }
  const double join = edge.linear_loss_s_m2 * flow_m3_s(break_edge);
  return std::abs(up - down - join) > parted_gap_m;
}

namespace {

/// Air drawn at springs below their intakes goes with the water as far as the line runs part full:
/// through whole pipes, over tees, into the next running pipes.
void follow_drawn_air(FlowState& state) {
  const model::Farm& farm = *state.farm;
  state.air_enters.assign(farm.pipes.size(), false);
  state.air_at.assign(farm.places.size(), false);
  std::vector<std::size_t> open;
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const auto* spring = std::get_if<model::Spring>(&farm.places[i].data);
    const std::optional<double> mouth = state.head_m(state.network->places[i].node);
    if (spring != nullptr && mouth && *mouth < in_metres(spring->intake) - parted_gap_m) {
      open.push_back(i);
    }
  }
  while (!open.empty()) {
    const std::size_t place = open.back();
    open.pop_back();
    for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
      const bool leaves =
          farm.pipes[i].from == place && state.is_running(i) && state.pipe_flow_m3_s(i) > 0.0;
      if (!leaves || state.air_enters[i]) {
        continue;
      }
      state.air_enters[i] = true;
      const std::size_t end = farm.pipes[i].to;
      const double length_m = state.network->pipes[i].cut.course.length_m;
      const bool whole = water_along(state, i).air_reach_m >= length_m * (1.0 - 1e-9);
      if (whole && std::holds_alternative<model::Tee>(farm.places[end].data) &&
          !state.air_at[end]) {
        state.air_at[end] = true;
        open.push_back(end);
      }
    }
  }
}

}  // namespace

FlowState solve_flow(const model::Farm& farm,
                     const Surroundings& surroundings,
                     const NetworkOptions& options) {
  FlowState state;
  state.farm = &farm;
  state.surroundings = surroundings;
  state.options = options;
  state.network = network_of(farm, surroundings, options);
  state.solution = nodal::solve(state.network->problem);
  if (state.solution.report.is_usable()) {
    for (std::size_t i = 0; i < state.network->problem.nodes.size(); ++i) {
      const std::optional<double>& fixed = state.network->problem.nodes[i].fixed_head_m;
      if (fixed) {
        state.solution.state.head_m[i] = *fixed;
      }
    }
    state.head_known = known_heads(state);
    follow_drawn_air(state);
  }
  return state;
}

PipeWater water_along(const FlowState& state, std::size_t pipe) {
  PipeWater water;
  const PipeEdges& edges = state.network->pipes[pipe];
  const double bore_m = in_metres(state.farm->pipes[pipe].size.bore);
  std::vector<std::size_t> first_of_stretch;
  for (std::size_t i = 0; i < edges.cut.stretches.size(); ++i) {
    first_of_stretch.push_back(water.points.size());
    if (state.head_m(edges.start_node[i]) && state.head_m(edges.end_node[i])) {
      walk_stretch(state, edges, i, bore_m, water.points);
    }
  }
  if (water.points.empty()) {
    return water;
  }
  const bool runs = state.is_running(pipe);
  const bool forward = state.pipe_flow_m3_s(pipe) > 0.0;
  if (!state.air_enters.empty() && state.air_enters[pipe] && forward) {
    // With air in it the line is under no suction: it stands at the air's pressure until it is
    // full.
    water.air_reach_m = mark_part_full(water.points, 0, 0.0);
    water.part_full_m = water.air_reach_m;
  }
  for (std::size_t i = 0; i < edges.cut.breaks.size(); ++i) {
    const Break& found = edges.cut.breaks[i];
    const bool lets_go = (found.kind == Break::Kind::Summit || found.kind == Break::Kind::Vent) &&
                         state.is_parted(edges.break_edge[i]);
    if (!runs || !lets_go || !forward || found.point.along_m <= water.air_reach_m) {
      continue;
    }
    const double floor_Pa =
        found.kind == Break::Kind::Vent
            ? 0.0
            : state.surroundings.water.vapour_pressure_Pa - state.surroundings.air_pressure_Pa;
    water.part_full_m += mark_part_full(water.points, first_of_stretch[i + 1], floor_Pa);
  }
  return water;
}

}  // namespace leat::solver
