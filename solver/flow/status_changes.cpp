#include "solver/flow/status_changes.h"

#include <optional>

#include "solver/network/status_limits.h"

namespace leat::solver {

namespace {

struct HighPoint {
  double at_m = 0.0;
  double elevation_m = 0.0;
};

/// The highest inner vertex of a pipe's course above a level.
std::optional<HighPoint> vertex_above(const PipeCourse& course, double level_m) {
  std::optional<HighPoint> found;
  for (std::size_t i = 1; i + 1 < course.points.size(); ++i) {
    const CoursePoint& point = course.points[i];
    if (point.elevation_m > level_m + least_rise_m &&
        (!found || point.elevation_m > found->elevation_m)) {
      found = HighPoint{point.at_m, point.elevation_m};
    }
  }
  return found;
}

/// Follows running water downstream from one pipe as far as the first ends in open water or air,
/// looking for a vertex or tee above `level_m`.
std::optional<BrokenLine> high_point_downstream(const FlowState& state,
                                                std::size_t first_pipe,
                                                double level_m) {
  const model::Farm& farm = *state.farm;
  std::vector<bool> seen(farm.pipes.size(), false);
  std::vector<std::size_t> open{first_pipe};
  seen[first_pipe] = true;
  while (!open.empty()) {
    const std::size_t pipe = open.back();
    open.pop_back();
    const PipeCourse& course = state.network->pipes[pipe].cut.course;
    const bool forward = state.pipe_flow_m3_s(pipe) > 0.0;
    const std::size_t end = forward ? farm.pipes[pipe].to : farm.pipes[pipe].from;
    // A ram stands in the open air: nothing beyond it hangs on its drive pipe's suction.
    const bool ends_at_ram = forward && state.network->ram_driven_by[pipe] != no_index;
    const bool goes_on = !ends_at_ram && model::is_tee(farm.places[end]);
    const double end_m = in_metres(model::level_of(farm.places[end], state.options.month));
    std::optional<HighPoint> high = vertex_above(course, level_m);
    if (goes_on && end_m > level_m + least_rise_m && !high) {
      const CoursePoint& last = forward ? course.points.back() : course.points.front();
      high = HighPoint{last.at_m, end_m};
    }
    if (high) {
      BrokenLine line;
      line.high_pipe = pipe;
      line.high_at_m = high->at_m;
      line.high_elevation_m = high->elevation_m;
      return line;
    }
    if (!goes_on) {
      continue;
    }
    for (const std::size_t next : state.network->pipes_of.at(end)) {
      if (seen[next] || !state.is_running(next)) {
        continue;
      }
      const bool leaves = state.pipe_flow_m3_s(next) > 0.0 ? farm.pipes[next].from == end
                                                           : farm.pipes[next].to == end;
      if (leaves) {
        seen[next] = true;
        open.push_back(next);
      }
    }
  }
  return std::nullopt;
}

/// Whether a still pipe lets air pass from its far end towards `tee`.
bool passes_air(const FlowState& state, std::size_t pipe, std::size_t tee) {
  if (state.is_running(pipe)) {
    return false;
  }
  const PipeStretches& cut = state.network->pipes[pipe].cut;
  const bool towards_tee = state.farm->pipes[pipe].to == tee;
  return !has_shut_valve(cut) && (!is_one_way(cut) || towards_tee);
}

/// The open end that a still branch leads to from a tee, if any.
std::optional<std::size_t> open_end_behind(const FlowState& state, std::size_t tee) {
  const model::Farm& farm = *state.farm;
  std::vector<bool> seen(farm.places.size(), false);
  std::vector<std::size_t> open{tee};
  seen[tee] = true;
  while (!open.empty()) {
    const std::size_t here = open.back();
    open.pop_back();
    for (const std::size_t pipe : state.network->pipes_of.at(here)) {
      const bool starts_here = farm.pipes[pipe].from == here;
      const bool drives_ram = state.network->ram_driven_by[pipe] != no_index;
      if (!passes_air(state, pipe, here) || (drives_ram && !starts_here)) {
        continue;
      }
      const std::size_t far = starts_here ? farm.pipes[pipe].to : farm.pipes[pipe].from;
      const PipeEdges& edges = state.network->pipes[pipe];
      const std::size_t end_edge = starts_here ? edges.to_end_edge : edges.from_end_edge;
      const std::size_t discharge = state.network->places[far].discharge_edge;
      if (state.stands_open(discharge) || state.stands_open(end_edge)) {
        return far;
      }
      if (model::is_tee(farm.places[far]) && !seen[far] && !drives_ram) {
        seen[far] = true;
        open.push_back(far);
      }
    }
  }
  return std::nullopt;
}

}  // namespace

std::vector<BrokenLine> lines_that_break(const FlowState& state) {
  const model::Farm& farm = *state.farm;
  std::vector<BrokenLine> broken;
  for (std::size_t place = 0; place < farm.places.size(); ++place) {
    if (!model::is_spring(farm.places[place])) {
      continue;
    }
    const std::optional<double> mouth = state.head_m(state.network->places[place].node);
    const double intake_m = in_metres(*model::intake_of(farm.places[place]));
    if (!mouth || *mouth >= intake_m - least_rise_m) {
      continue;
    }
    for (const std::size_t pipe : state.network->pipes_of.at(place)) {
      if (farm.pipes[pipe].from != place || state.pipe_flow_m3_s(pipe) < still_flow_m3_s) {
        continue;
      }
      if (std::optional<BrokenLine> line = high_point_downstream(state, pipe, intake_m)) {
        line->spring = place;
        line->pipe = pipe;
        line->intake_m = intake_m;
        broken.push_back(*line);
      }
    }
  }
  return broken;
}

std::vector<DrawingTee> tees_that_draw_air(const FlowState& state) {
  const model::Farm& farm = *state.farm;
  std::vector<DrawingTee> drawing;
  for (std::size_t place = 0; place < farm.places.size(); ++place) {
    if (!model::is_tee(farm.places[place]) || state.options.opened_tees.contains(place)) {
      continue;
    }
    const std::optional<double> head = state.head_m(state.network->places[place].node);
    if (!head || *head >= in_metres(model::level_of(farm.places[place], state.options.month)) -
                              least_suction_m) {
      continue;
    }
    if (const std::optional<std::size_t> end = open_end_behind(state, place)) {
      drawing.push_back({place, *end, *head});
    }
  }
  return drawing;
}

}  // namespace leat::solver
