#include "solver/flow/flow_state.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/flow/carried_start.h"
#include "solver/flow/static_heads.h"
#include "solver/hydraulics/head_loss.h"
#include "solver/network/status_limits.h"

namespace leat::solver {

namespace {

using nodal::Edge;
using nodal::EdgeKind;

/// How softly limits are taken where a solve begins from the answer before a tee was opened: less
/// than from nothing, since most of the farm stays as it was.
constexpr double changed_farm_smoothing_m = 0.1;
/// Of the usual scale S, for networks that resist.
constexpr double second_scale_share = 0.37;

}  // namespace

std::vector<bool> known_heads(const FlowState& state) {
  const nodal::Problem& problem = state.network->problem;
  std::vector<std::vector<std::size_t>> neighbours(problem.nodes.size());
  for (std::size_t i = 0; i < problem.edges.size(); ++i) {
    const Edge& edge = problem.edges[i];
    if (edge.kind == EdgeKind::Ram && std::abs(state.flow_m3_s(i)) >= still_flow_m3_s) {
      const std::size_t drive = problem.edges[edge.driver].up;
      neighbours[drive].push_back(edge.down);
    }
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
  for (std::size_t node = 0; node < problem.nodes.size(); ++node) {
    if (problem.nodes[node].has_store) {
      known[node] = true;
      open.push_back(node);
    }
  }
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

namespace {

/// What a placed loss takes from the water at a flow [m].
double placed_loss_m(const PlacedLoss& loss, double bore_m, double flow_m3_s) {
  const double k = flow_m3_s >= 0.0 ? loss.forward_k : loss.backward_k;
  const double velocity_head = hydraulics::velocity_head_m(bore_m, flow_m3_s);
  const double head = k * std::max(velocity_head, loss.least_velocity_head_m) + loss.opening_head_m;
  return flow_m3_s >= 0.0 ? head : -head;
}

/// Where a one-way of a stretch sits: at its first one-way fitting, else at the stretch's start.
double one_way_at_m(const Stretch& stretch) {
  return stretch.one_way_at_m.value_or(stretch.start.at_m);
}

/// Points of a still stretch: level water, on a closed one-way's two sides at two heads.
void walk_still(const FlowState& state,
                const PipeEdges& pipe,
                std::size_t index,
                const std::vector<CoursePoint>& course,
                std::vector<PipePoint>& points) {
  const Stretch& stretch = pipe.cut.stretches[index];
  const std::optional<double> start_head = state.head_m(pipe.start_node[index]);
  const std::optional<double> end_head = state.head_m(pipe.end_node[index]);
  for (const CoursePoint& point : course) {
    const bool before_check = stretch.one_way && point.at_m < one_way_at_m(stretch);
    const std::optional<double>& head =
        stretch.one_way ? (before_check ? start_head : end_head) : start_head;
    if (head) {
      const double pressure = state.surroundings.pressure_of_head_Pa(*head - point.elevation_m);
      points.push_back({point.at_m, point.along_m, point.elevation_m, *head, pressure});
    }
  }
}

/// Points of a running stretch. What the stretch as a whole loses is the solver's; placed losses
/// take their part where they stand, the rest lies evenly along the pipe.
void walk_running(const FlowState& state,
                  const PipeEdges& pipe,
                  std::size_t index,
                  double bore_m,
                  const std::vector<CoursePoint>& course,
                  std::vector<PipePoint>& points) {
  const Stretch& stretch = pipe.cut.stretches[index];
  const double flow = state.flow_m3_s(pipe.stretch_edge[index]);
  const double velocity_head = hydraulics::velocity_head_m(bore_m, flow);
  const double length_m = stretch.end.along_m - stretch.start.along_m;
  const double start_head = *state.head_m(pipe.start_node[index]);
  double placed_total = 0.0;
  for (const PlacedLoss& loss : stretch.placed) {
    placed_total += placed_loss_m(loss, bore_m, flow);
  }
  const double even = start_head - *state.head_m(pipe.end_node[index]) - placed_total;
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
  // An entrance's loss comes before the first point inside the pipe, an exit's after the last.
  const double first_m = pipe.cut.course.points.front().along_m;
  const double last_m = pipe.cut.course.points.back().along_m;
  std::size_t next = 0;
  for (const CoursePoint& point : course) {
    bool added = false;
    while (next < stretch.placed.size() && stretch.placed[next].at_m <= point.at_m) {
      const PlacedLoss& loss = stretch.placed[next++];
      const CoursePoint where = pipe.cut.course.at(loss.at_m);
      const double taken = placed_loss_m(loss, bore_m, flow);
      const bool at_start = where.along_m <= first_m;
      const bool at_end = where.along_m >= last_m;
      if (taken != 0.0 && !at_start) {
        add(where);
        added = where.along_m >= point.along_m;
      }
      placed_so_far += taken;
      if (taken != 0.0 && !at_start && !at_end) {
        add(where);
      }
    }
    if (!added) {
      add(point);
    }
  }
}

/// Walks one stretch and appends its points, where its heads are known.
void walk_stretch(const FlowState& state,
                  const PipeEdges& pipe,
                  std::size_t index,
                  double bore_m,
                  std::vector<PipePoint>& points) {
  const Stretch& stretch = pipe.cut.stretches[index];
  std::vector<CoursePoint> course{stretch.start};
  for (const CoursePoint& point : pipe.cut.course.points) {
    if (point.along_m > stretch.start.along_m && point.along_m < stretch.end.along_m) {
      course.push_back(point);
    }
  }
  // A stretch of no length, such as behind a regulator at the pipe's end, is one point: a second
  // one would stand beyond the exit's loss.
  if (stretch.end.along_m > stretch.start.along_m) {
    course.push_back(stretch.end);
  }
  if (std::abs(state.flow_m3_s(pipe.stretch_edge[index])) < still_flow_m3_s) {
    walk_still(state, pipe, index, course, points);
  } else if (state.head_m(pipe.start_node[index]) && state.head_m(pipe.end_node[index])) {
    walk_running(state, pipe, index, bore_m, course, points);
  }
}

enum class Direction { Forward, Backward };

/// Marks a reach without full water: from point `first` on in a direction, as long as the grade
/// line computed for a full pipe lies below the pipe, at `floor_Pa` gauge. Returns its length.
double mark_part_full(std::vector<PipePoint>& points,
                      std::size_t first,
                      Direction direction,
                      double floor_Pa) {
  double length_m = 0.0;
  const std::size_t count = points.size();
  std::size_t i = first;
  while (i < count && points[i].pressure_Pa < floor_Pa) {
    const std::size_t next = direction == Direction::Forward ? i + 1 : i - 1;  // wraps at 0
    if (next < count) {
      const double here = points[i].pressure_Pa - floor_Pa;
      const double there = points[next].pressure_Pa - floor_Pa;
      const double span = std::abs(points[next].along_m - points[i].along_m);
      length_m += there > 0.0 ? span * (-here) / (there - here) : span;
    }
    points[i].pressure_Pa = floor_Pa;
    points[i].part_full = true;
    i = next;
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

bool FlowState::stands_open(std::size_t end_edge) const {
  if (end_edge == no_index) {
    return false;
  }
  const Edge& edge = network->problem.edges[end_edge];
  switch (edge.kind) {
    case EdgeKind::Discharge:
      return !edge.closed;
    case EdgeKind::CappedDischarge:
      return !edge.closed && edge.limit_m3_s > 0.0;
    case EdgeKind::HeldInlet:
      return solution.state.head_m[edge.down] < edge.shut_level_m - parted_gap_m;
    case EdgeKind::Link:
    case EdgeKind::OneWay:
    case EdgeKind::LimitedSupply:
    case EdgeKind::Crest:
    case EdgeKind::HeadHold:
    case EdgeKind::Pump:
    case EdgeKind::Ram:
      return false;
  }
  return false;
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
    const std::optional<double> mouth = state.head_m(state.network->places[i].node);
    if (model::is_spring(farm.places[i]) && mouth &&
        *mouth < in_metres(*model::intake_of(farm.places[i])) - parted_gap_m) {
      open.push_back(i);
    }
  }
  while (!open.empty()) {
    const std::size_t place = open.back();
    open.pop_back();
    for (const std::size_t i : state.network->pipes_of.at(place)) {
      const bool leaves =
          farm.pipes[i].from == place && state.is_running(i) && state.pipe_flow_m3_s(i) > 0.0;
      if (!leaves || state.air_enters[i]) {
        continue;
      }
      state.air_enters[i] = true;
      const std::size_t end = farm.pipes[i].to;
      const double length_m = state.network->pipes[i].cut.course.length_m;
      if (state.network->ram_driven_by[i] != no_index) {
        continue;  // the ram lets its air out with its waste
      }
      const bool whole = water_along(state, i).air_reach_m >= length_m * (1.0 - 1e-9);
      if (whole && model::is_tee(farm.places[end]) && !state.air_at[end]) {
        state.air_at[end] = true;
        open.push_back(end);
      }
    }
  }
}

}  // namespace

namespace {

/// Solves from the answer before where there is one; what resists is tried once more with another
/// scale throughout, as the paces of the solver all hang on it.
nodal::Solution solved_network(const nodal::Problem& problem,
                               const FlowState* before,
                               const FarmNetwork& network) {
  nodal::NodalSolver solver(problem);
  nodal::SolveOptions how;
  nodal::Solution solution;
  if (before == nullptr) {
    solution = solver.solve(problem, how);
  } else {
    how.small_change = false;
    how.warm_smoothing_m = changed_farm_smoothing_m;
    const nodal::State start = carried_over(*before, network);
    solution = solver.solve(problem, how, &start);
  }
  if (!solution.report.is_usable()) {
    how.scale_s_m2 *= second_scale_share;
    const int spent = solution.report.iterations;
    nodal::Solution again = solver.solve(problem, how);
    again.report.iterations += spent;
    if (again.report.is_usable()) {
      solution = std::move(again);
    }
  }
  return solution;
}

}  // namespace

FlowState solve_flow(const model::Farm& farm,
                     const Surroundings& surroundings,
                     const NetworkOptions& options,
                     const FlowState* before) {
  FlowState state;
  state.farm = &farm;
  state.surroundings = surroundings;
  state.options = options;
  state.network = network_of(farm, surroundings, options);
  state.solution = solved_network(state.network->problem, before, *state.network);
  if (state.solution.report.is_usable()) {
    state.static_head_m = static_heads_m(farm, *state.network, options.month);
    read_heads(state);
  }
  return state;
}

void read_heads(FlowState& state) {
  for (std::size_t i = 0; i < state.network->problem.nodes.size(); ++i) {
    const std::optional<double>& fixed = state.network->problem.nodes[i].fixed_head_m;
    if (fixed) {
      state.solution.state.head_m[i] = *fixed;
    }
  }
  state.head_known = known_heads(state);
  follow_drawn_air(state);
}

namespace {

/// Whether a pipe's end stands open to the air: a free end, an open outlet or float without water,
/// an end in an opened tee or emptied tank that has let go.
bool end_is_open(const FlowState& state, std::size_t pipe, Direction seen_from_end) {
  const PipeEdges& edges = state.network->pipes[pipe];
  const bool at_start = seen_from_end == Direction::Forward;
  const std::size_t joint = at_start ? edges.from_end_edge : edges.to_end_edge;
  if (joint != no_index && state.network->problem.edges[joint].kind == EdgeKind::Crest) {
    return state.is_parted(joint);
  }
  const bool discharges = !at_start && joint == no_index;
  return state.stands_open(
      discharges ? state.network->places[state.farm->pipes[pipe].to].discharge_edge : joint);
}

/// Puts in air and vapour where the water leaves room for them.
class GapFiller {
 public:
  GapFiller(const FlowState& state, std::size_t pipe, PipeWater& water)
      : state_(state), pipe_(pipe), edges_(state.network->pipes[pipe]), water_(water) {
    vapour_Pa_ = state.surroundings.water.vapour_pressure_Pa - state.surroundings.air_pressure_Pa;
  }

  void fill() {
    const double flow = state_.pipe_flow_m3_s(pipe_);
    if (state_.is_running(pipe_)) {
      fill_running(flow > 0.0 ? Direction::Forward : Direction::Backward);
    } else {
      fill_still();
    }
    for (PipePoint& point : water_.points) {
      point.pressure_Pa = std::max(point.pressure_Pa, vapour_Pa_);
    }
  }

 private:
  void fill_running(Direction direction) {
    const bool forward = direction == Direction::Forward;
    const std::size_t first = forward ? 0 : water_.points.size() - 1;
    const std::size_t joint = forward ? edges_.from_end_edge : edges_.to_end_edge;
    const bool falls_in = joint != no_index &&
                          state_.network->problem.edges[joint].kind == EdgeKind::Crest &&
                          state_.is_parted(joint);
    const bool drawn = forward && !state_.air_enters.empty() && state_.air_enters[pipe_];
    if (drawn || falls_in) {
      // With air in it the line is under no suction: it stands at the air's pressure until full.
      const double length_m = mark_part_full(water_.points, first, direction, 0.0);
      water_.air_reach_m = forward ? length_m : 0.0;
      water_.part_full_m += length_m;
    }
    for (std::size_t i = 0; i < edges_.cut.breaks.size(); ++i) {
      if (lets_go(i) && edges_.cut.breaks[i].point.along_m > water_.air_reach_m) {
        water_.part_full_m += mark_from_break(i, direction);
      }
    }
  }

  void fill_still() {
    if (end_is_open(state_, pipe_, Direction::Forward)) {
      (void)mark_part_full(water_.points, 0, Direction::Forward, 0.0);
    }
    if (end_is_open(state_, pipe_, Direction::Backward)) {
      (void)mark_part_full(water_.points, water_.points.size() - 1, Direction::Backward, 0.0);
    }
    for (std::size_t i = 0; i < edges_.cut.breaks.size(); ++i) {
      if (lets_go(i)) {
        (void)mark_from_break(i, Direction::Forward);
        (void)mark_from_break(i, Direction::Backward);
      }
    }
  }

  [[nodiscard]] bool lets_go(std::size_t index) const {
    const Break::Kind kind = edges_.cut.breaks[index].kind;
    return (kind == Break::Kind::Summit || kind == Break::Kind::Vent) &&
           state_.is_parted(edges_.break_edge[index]);
  }

  double mark_from_break(std::size_t index, Direction direction) {
    const Break& found = edges_.cut.breaks[index];
    const double floor_Pa = found.kind == Break::Kind::Vent ? 0.0 : vapour_Pa_;
    const double along_m = found.point.along_m;
    // Both sides of the break are points at the same place: the side beyond it is meant.
    std::size_t first = water_.points.size();
    for (std::size_t i = 0; i < water_.points.size(); ++i) {
      const bool here = water_.points[i].along_m == along_m;
      if (here && (direction == Direction::Forward || first == water_.points.size())) {
        first = i;
      }
    }
    return first < water_.points.size() ? mark_part_full(water_.points, first, direction, floor_Pa)
                                        : 0.0;
  }

  const FlowState& state_;
  std::size_t pipe_;
  const PipeEdges& edges_;
  PipeWater& water_;
  double vapour_Pa_ = 0.0;
};

}  // namespace

PipeWater water_along(const FlowState& state, std::size_t pipe) {
  PipeWater water;
  const PipeEdges& edges = state.network->pipes[pipe];
  const double bore_m = in_metres(state.farm->pipes[pipe].size.bore);
  for (std::size_t i = 0; i < edges.cut.stretches.size(); ++i) {
    const std::size_t before = water.points.size();
    walk_stretch(state, edges, i, bore_m, water.points);
    for (std::size_t point = before; point < water.points.size(); ++point) {
      water.points[point].stretch = i;
    }
  }
  if (!water.points.empty()) {
    GapFiller(state, pipe, water).fill();
  }
  return water;
}

}  // namespace leat::solver
