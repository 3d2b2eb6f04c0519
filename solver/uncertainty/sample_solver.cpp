#include "solver/uncertainty/sample_solver.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/flow/place_answers.h"
#include "solver/flow/solved_case.h"
#include "solver/network/status_limits.h"
#include "solver/uncertainty/sampled_farm.h"

namespace leat::solver {

namespace {

/// The vertex of the base at a distance along a pipe, or the end of the pipe's.
std::size_t vertex_at(const SpreadBase& base, std::size_t pipe, double at_m) {
  std::size_t vertex = base.first_vertex[pipe];
  while (vertex < base.first_vertex[pipe + 1] &&
         std::abs(base.vertices[vertex].at_m - at_m) > 1e-9) {
    ++vertex;
  }
  return vertex;
}

void mark_parted(const SpreadBase& base, std::size_t pipe, double at_m, DrawnAnswer& answer) {
  const std::size_t vertex = vertex_at(base, pipe, at_m);
  if (vertex < base.first_vertex[pipe + 1]) {
    answer.parts[vertex] = true;
  }
}

}  // namespace

SpreadBase spread_base(const model::Farm& farm, const NetworkOptions& options, std::uint64_t seed) {
  SpreadBase base;
  base.farm = &farm;
  base.options = options;
  base.options.opened_tees.clear();
  base.options.broken_pipes.clear();
  base.surroundings = surroundings_of(farm, options.month);
  base.start = solve_flow(farm, base.surroundings, base.options);
  const bool solved = base.start.solution.report.is_usable();
  base.has_rounds =
      !solved || !lines_that_break(base.start).empty() || !tees_that_draw_air(base.start).empty();
  base.inputs = uncertain_inputs(farm, options.month);
  base.seed = seed;
  for (std::size_t pipe = 0; pipe < farm.pipes.size(); ++pipe) {
    base.first_vertex.push_back(base.vertices.size());
    const PipeCourse& course = base.start.network->pipes[pipe].cut.course;
    const std::vector<std::size_t> summits = course.summits();
    for (std::size_t point = 1; point + 1 < course.points.size(); ++point) {
      const bool is_summit = std::find(summits.begin(), summits.end(), point) != summits.end();
      base.vertices.push_back({pipe, course.points[point].at_m, is_summit});
    }
  }
  base.first_vertex.push_back(base.vertices.size());
  return base;
}

DrawSolver::DrawSolver(const SpreadBase& base)
    : base_(&base), farm_(*base.farm), warm_(base.start) {
  state_.farm = &farm_;
  state_.options = base.options;
}

DrawnAnswer DrawSolver::solve(std::uint64_t draw) {
  take(draw);
  DrawnAnswer answer;
  if (base_->has_rounds || !solve_quickly(answer)) {
    solve_slowly(answer);
  }
  read_needs(answer);
  return answer;
}

DrawnAnswer DrawSolver::solve_from_nothing(std::uint64_t draw) {
  take(draw);
  DrawnAnswer answer;
  solve_slowly(answer);
  read_needs(answer);
  return answer;
}

void DrawSolver::take(std::uint64_t draw) {
  draw_into(farm_, *base_->farm, base_->inputs, base_->seed, draw);
  surroundings_ = base_->surroundings;
  if (farm_.site.air_pressure) {
    surroundings_.air_pressure_Pa = in_pascals(*farm_.site.air_pressure);
  }
}

bool DrawSolver::solve_quickly(DrawnAnswer& answer) {
  state_.surroundings = surroundings_;
  state_.network = network_of(farm_, surroundings_, base_->options);
  if (!warm_.is_alike(*state_.network)) {
    return false;
  }
  state_.solution = warm_.solve_alike(*state_.network);
  if (!state_.solution.report.is_usable() || may_bring_about_more()) {
    return false;
  }
  answer.parts.assign(base_->vertices.size(), false);
  if (read_parted(answer) && lets_air_in()) {
    return false;  // a summit that air has reached stands open, it does not part
  }
  read_delivered(answer);
  answer.way = DrawnAnswer::Way::Quick;
  return true;
}

void DrawSolver::solve_slowly(DrawnAnswer& answer) const {
  const SolvedCase solved = solve_running_case(farm_, surroundings_, base_->options);
  answer.way = DrawnAnswer::Way::Unsolved;
  answer.parts.assign(base_->vertices.size(), false);
  answer.delivered_m3_s.assign(farm_.places.size(), 0.0);
  if (!solved.state.solution.report.is_usable()) {
    return;
  }
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    answer.delivered_m3_s[i] = solved.places[i].delivered_m3_s;
  }
  for (std::size_t pipe = 0; pipe < farm_.pipes.size(); ++pipe) {
    for (const SummitAnswer& summit : solved.pipes[pipe].summits) {
      if (summit.parted) {
        mark_parted(*base_, pipe, summit.at_m, answer);
      }
    }
  }
  answer.way = DrawnAnswer::Way::Slow;
}

bool DrawSolver::spring_is_below_intake() const {
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    if (model::is_spring(farm_.places[i]) &&
        state_.solution.state.head_m[state_.network->places[i].node] <
            in_metres(*model::intake_of(farm_.places[i])) - least_rise_m) {
      return true;
    }
  }
  return false;
}

/// Whether a line might break or a tee draw air: asked of the raw heads, so that it says yes too
/// often rather than too seldom.
bool DrawSolver::may_bring_about_more() const {
  double lowest_drawn_intake_m = 1e300;
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    const double head = state_.solution.state.head_m[state_.network->places[i].node];
    const model::Place& place = farm_.places[i];
    if (model::is_spring(place)) {
      const double intake_m = in_metres(*model::intake_of(place));
      if (head < intake_m - 0.5 * least_rise_m) {
        lowest_drawn_intake_m = std::min(lowest_drawn_intake_m, intake_m);
      }
    } else if (model::is_tee(place)) {
      if (head < in_metres(model::level_of(place, std::nullopt)) - 0.99 * least_suction_m) {
        for (const std::size_t pipe : state_.network->pipes_of.at(i)) {
          if (!state_.is_running(pipe)) {
            return true;
          }
        }
      }
    }
  }
  if (lowest_drawn_intake_m > 1e299) {
    return false;
  }
  for (const PipeEdges& pipe : state_.network->pipes) {
    for (const CoursePoint& point : pipe.cut.course.points) {
      if (point.elevation_m > lowest_drawn_intake_m + 0.5 * least_rise_m) {
        return true;
      }
    }
  }
  return false;
}

bool DrawSolver::lets_air_in() const {
  if (spring_is_below_intake()) {
    return true;
  }
  const auto parted = [this](std::size_t edge) {
    return edge != no_index && state_.network->problem.edges[edge].kind == nodal::EdgeKind::Crest &&
           state_.is_parted(edge);
  };
  return std::any_of(
      state_.network->pipes.begin(), state_.network->pipes.end(), [&](const PipeEdges& pipe) {
        return parted(pipe.from_end_edge) || parted(pipe.to_end_edge);
      });
}

void DrawSolver::read_delivered(DrawnAnswer& answer) const {
  answer.delivered_m3_s.assign(farm_.places.size(), 0.0);
  for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
    const PipeEdges& pipe = state_.network->pipes[i];
    answer.delivered_m3_s[farm_.pipes[i].to] += state_.flow_m3_s(pipe.stretch_edge.back());
    answer.delivered_m3_s[farm_.pipes[i].from] -= state_.flow_m3_s(pipe.stretch_edge.front());
  }
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    const PlaceNode& node = state_.network->places[i];
    double& delivered = answer.delivered_m3_s[i];
    if (node.supply_edge != no_index) {
      delivered = -state_.flow_m3_s(node.supply_edge);
    } else if (node.discharge_edge != no_index) {
      delivered = std::max(0.0, state_.flow_m3_s(node.discharge_edge));
    } else if (!model::is_open_water(farm_.places[i])) {
      delivered = 0.0;
    }
    delivered = unless_still(delivered);
  }
}

bool DrawSolver::read_parted(DrawnAnswer& answer) const {
  bool any = false;
  for (std::size_t pipe = 0; pipe < farm_.pipes.size(); ++pipe) {
    const PipeEdges& edges = state_.network->pipes[pipe];
    for (std::size_t i = 0; i < edges.cut.breaks.size(); ++i) {
      const Break& found = edges.cut.breaks[i];
      if (found.kind == Break::Kind::Summit && state_.is_parted(edges.break_edge[i])) {
        mark_parted(*base_, pipe, found.point.at_m, answer);
        any = true;
      }
    }
  }
  return any;
}

void DrawSolver::read_needs(DrawnAnswer& answer) const {
  for (const model::Place& place : farm_.places) {
    answer.need_m3_s.push_back(need_of(farm_, place, base_->options.month));
  }
}

}  // namespace leat::solver
