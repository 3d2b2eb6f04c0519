#include "solver/flow/solved_case.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "solver/flow/place_answers.h"
#include "solver/flow/static_heads.h"

namespace leat::solver {

namespace {

/// The options of the next round: these lines broken, these tees open.
NetworkOptions changed(NetworkOptions options,
                       const std::vector<BrokenLine>& broken,
                       const std::vector<DrawingTee>& opening) {
  for (const BrokenLine& line : broken) {
    options.broken_pipes.insert(line.pipe);
  }
  for (const DrawingTee& tee : opening) {
    options.opened_tees.insert(tee.tee);
  }
  return options;
}

/// The tee that stands highest above its head.
DrawingTee deepest_of(const model::Farm& farm, const std::vector<DrawingTee>& drawing) {
  const auto suction_m = [&farm](const DrawingTee& tee) {
    return in_metres(model::level_of(farm.places[tee.tee], std::nullopt)) - tee.head_m;
  };
  return *std::max_element(
      drawing.begin(), drawing.end(), [&](const DrawingTee& a, const DrawingTee& b) {
        return suction_m(a) < suction_m(b);
      });
}

}  // namespace

SolvedCase solve_running_case(const model::Farm& farm,
                              const Surroundings& surroundings,
                              NetworkOptions options,
                              WarmSolver* warm) {
  SolvedCase solved;
  solved.load_case = options.load_case;
  solved.state = warm == nullptr ? solve_flow(farm, surroundings, options)
                                 : solve_flow_from(*warm, farm, surroundings, options);
  solved.iterations = solved.state.solution.report.iterations;
  // Every round shuts a line or opens a tee that the next ones keep, so there are at most as many
  // rounds as pipes and tees.
  while (solved.state.solution.report.is_usable()) {
    const std::vector<BrokenLine> broken = lines_that_break(solved.state);
    const std::vector<DrawingTee> drawing =
        broken.empty() ? tees_that_draw_air(solved.state) : std::vector<DrawingTee>{};
    if (broken.empty() && drawing.empty()) {
      break;
    }
    std::vector<DrawingTee> opening = drawing;
    NetworkOptions next = changed(options, broken, opening);
    FlowState after = solve_flow(farm, surroundings, next, &solved.state);
    if (!after.solution.report.is_usable() && opening.size() > 1) {
      // Many tees opened at once can be too much for the solver; the deepest alone often spares the
      // others from drawing air at all.
      solved.iterations += after.solution.report.iterations;
      opening = {deepest_of(farm, drawing)};
      next = changed(options, broken, opening);
      after = solve_flow(farm, surroundings, next, &solved.state);
    }
    options = next;
    for (const BrokenLine& line : broken) {
      solved.happenings.broken_lines.push_back(line);
    }
    for (const DrawingTee& tee : opening) {
      solved.happenings.drawing_tees.push_back(tee);
    }
    solved.state = std::move(after);
    solved.iterations += solved.state.solution.report.iterations;
  }
  if (solved.state.solution.report.is_usable()) {
    solved.places = place_answers(solved.state);
    solved.pipes = pipe_answers(solved.state);
  }
  return solved;
}

SolvedCase solve_static_case(const model::Farm& farm,
                             const Surroundings& surroundings,
                             NetworkOptions options) {
  options.load_case = LoadCase::Static;
  SolvedCase solved;
  solved.load_case = LoadCase::Static;
  FlowState& state = solved.state;
  state.farm = &farm;
  state.surroundings = surroundings;
  state.options = options;
  state.network = network_of(farm, surroundings, options);
  const auto heads = static_heads_m(farm, *state.network, options.month);
  state.head_known.assign(heads.size(), false);
  state.solution.state.head_m.assign(heads.size(), 0.0);
  state.solution.state.flow_m3_s.assign(state.network->problem.edges.size(), 0.0);
  for (std::size_t i = 0; i < heads.size(); ++i) {
    if (heads[i]) {
      state.head_known[i] = true;
      state.solution.state.head_m[i] = *heads[i];
      state.network->problem.nodes[i].fixed_head_m = *heads[i];
    }
  }
  state.static_head_m = heads;
  solved.places = place_answers(state);
  solved.pipes = pipe_answers(state);
  for (PlaceAnswer& place : solved.places) {
    place.met.reset();
    place.delivered_m3_s = 0.0;
    place.spill_m3_s = place.spill_m3_s ? std::optional<double>(0.0) : std::nullopt;
  }
  return solved;
}

}  // namespace leat::solver
