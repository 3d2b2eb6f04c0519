#include "solver/season_steps.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "solver/carry_over.h"
#include "solver/farm_of_day.h"
#include "solver/place_answers.h"

namespace leat::solver {

namespace {

using nodal::Edge;

/// A step that finds no balance is halved, but not below this.
constexpr double least_step_s = 30.0;
constexpr double second_scale_share = 0.37;
/// How softly limits are taken where a step is no small change (1e-4 and 1 took more iterations).
constexpr double changed_farm_smoothing_m = 0.1;
/// A tee that drew air is full again where water stands above it by this.
constexpr double full_above_m = 1e-3;
/// The limits of siphon_rounds.cpp and flow_state.cpp, here only to see cheaply that nothing is up.
constexpr double least_rise_m = 1e-6;
constexpr double least_suction_m = 0.01;
constexpr double parted_gap_m = 1e-6;

bool same_pattern(const nodal::Problem& a, const nodal::Problem& b) {
  if (a.nodes.size() != b.nodes.size() || a.edges.size() != b.edges.size()) {
    return false;
  }
  for (std::size_t i = 0; i < a.nodes.size(); ++i) {
    if (a.nodes[i].has_store != b.nodes[i].has_store ||
        a.nodes[i].fixed_head_m.has_value() != b.nodes[i].fixed_head_m.has_value()) {
      return false;
    }
  }
  for (std::size_t i = 0; i < a.edges.size(); ++i) {
    const Edge& x = a.edges[i];
    const Edge& y = b.edges[i];
    if (x.kind != y.kind || x.up != y.up || x.down != y.down || x.closed != y.closed) {
      return false;
    }
  }
  return true;
}

/// Whether some vertex or tee that water from a spring may pass stands above its intake: such a
/// line can break.
bool can_break(const model::Farm& farm, const PipesByPlace& pipes_of, std::size_t spring) {
  const double intake_m = in_metres(std::get<model::Spring>(farm.places[spring].data).intake);
  std::vector<bool> seen(farm.places.size(), false);
  std::vector<std::size_t> open{spring};
  seen[spring] = true;
  while (!open.empty()) {
    const std::size_t here = open.back();
    open.pop_back();
    for (const std::size_t i : pipes_of.at(here)) {
      const model::Pipe& pipe = farm.pipes[i];
      for (const model::PathPoint& point : pipe.path) {
        if (in_metres(point.elevation) > intake_m + least_rise_m) {
          return true;
        }
      }
      const std::size_t far = pipe.to == here ? pipe.from : pipe.to;
      const auto* tee = std::get_if<model::Tee>(&farm.places[far].data);
      if (tee == nullptr || seen[far]) {
        continue;
      }
      if (in_metres(tee->elevation) > intake_m + least_rise_m) {
        return true;
      }
      seen[far] = true;
      open.push_back(far);
    }
  }
  return false;
}

}  // namespace

void StepWater::clear() {
  std::fill(places.begin(), places.end(), PlaceWater{});
  vents_m3 = 0.0;
  rain_m3 = 0.0;
}

SeasonSteps::SeasonSteps(const model::Farm& farm, const FarmStores& stores)
    : farm_(farm), stores_(stores) {
  for (const StoreLaw& store : stores_.laws()) {
    level_m_.push_back(store.start_m);
    volume_m3_.push_back(store.at(store.start_m).volume_m3);
    // The network's pipes end where they lie, whatever the level is later.
    if (auto* pond = std::get_if<model::Pond>(&farm_.places[store.place].data)) {
      pond->surface = model::MonthSeries<Elevation>::constant(elevation_metres(store.start_m));
    }
  }
  state_.farm = &farm_;
  state_.options.stores = &stores_;
  const PipesByPlace pipes_of(farm_);
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    if (std::holds_alternative<model::Spring>(farm_.places[i].data) &&
        can_break(farm_, pipes_of, i)) {
      breakable_.push_back(i);
    }
  }
}

void SeasonSteps::begin_day(const DayValues& values) {
  stale_ = put_day(values, stores_, farm_) || stale_;
  drawing_.clear();
  const std::size_t opened = state_.options.opened_tees.size();
  std::erase_if(state_.options.opened_tees, [this](std::size_t tee) {
    const double level_m = in_metres(std::get<model::Tee>(farm_.places[tee].data).elevation);
    return state_.solution.state.head_m[state_.network->places[tee].node] > level_m + full_above_m;
  });
  stale_ = stale_ || state_.options.opened_tees.size() < opened;
  if (!stale_) {
    put_yields();
  }
}

void SeasonSteps::put_yields() {
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    if (const auto* spring = std::get_if<model::Spring>(&farm_.places[i].data)) {
      state_.network->problem.edges[state_.network->places[i].supply_edge].limit_m3_s =
          in_cubic_metres_per_second(spring->yield.at(std::nullopt));
    }
  }
}

void SeasonSteps::break_float(std::size_t place) {
  stale_ = state_.options.open_floats.insert(place).second || stale_;
}

void SeasonSteps::rebuild() {
  stale_ = false;
  state_.surroundings = surroundings_of(farm_, std::nullopt);
  std::unique_ptr<FarmNetwork> network = network_of(farm_, state_.surroundings, state_.options);
  const bool is_first = state_.network == nullptr;
  if (!is_first && same_pattern(network->problem, state_.network->problem)) {
    state_.network = std::move(network);
    return;
  }
  nodal::State start;
  if (is_first) {
    start.head_m.assign(network->problem.nodes.size(), std::numeric_limits<double>::quiet_NaN());
    start.flow_m3_s.assign(network->problem.edges.size(), 0.0);
    for (std::size_t i = 0; i < network->problem.edges.size(); ++i) {
      start.flow_m3_s[i] = network->problem.edges[i].start_flow_m3_s;
    }
  } else {
    start = carried_over(state_, *network);
  }
  for (std::size_t i = 0; i < stores_.laws().size(); ++i) {
    start.head_m[network->places[stores_.laws()[i].place].store_node] = level_m_[i];
  }
  changed_ = true;
  solver_.emplace(network->problem);
  state_.network = std::move(network);
  state_.solution.state = std::move(start);
  find_watched();
}

/// Lists what is looked at after every step.
void SeasonSteps::find_watched() {
  const FarmNetwork& network = *state_.network;
  summits_.clear();
  for (const PipeEdges& pipe : network.pipes) {
    for (std::size_t i = 0; i < pipe.break_edge.size(); ++i) {
      if (pipe.cut.breaks[i].kind == Break::Kind::Summit) {
        summits_.push_back(pipe.break_edge[i]);
      }
    }
  }
}

void SeasonSteps::put_wishes(const StepWishes& wishes, double seconds) {
  nodal::Problem& problem = state_.network->problem;
  problem.step_s = seconds;
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    const PlaceNode& place = state_.network->places[i];
    const std::size_t edge = place.drink_edge != no_index ? place.drink_edge : place.discharge_edge;
    if (edge != no_index && problem.edges[edge].kind == nodal::EdgeKind::CappedDischarge) {
      problem.edges[edge].limit_m3_s = wishes.taken_m3_s[i];
    }
    if (place.store_node != no_index) {
      problem.nodes[place.store_node].inflow_m3_s = wishes.inflow_m3_s[i];
      problem.nodes[place.store_node].volume_before_m3 = volume_m3_[stores_.of_place(i)];
    }
  }
}

bool SeasonSteps::solve() {
  nodal::SolveOptions how;
  how.small_change = !changed_;
  how.warm_smoothing_m = changed_farm_smoothing_m;
  changed_ = false;
  nodal::Solution solution = solver_->solve(state_.network->problem, how, &state_.solution.state);
  iterations_ += solution.report.iterations;
  ++solves_;
  if (!solution.report.is_usable()) {
    how.scale_s_m2 *= second_scale_share;
    solution = solver_->solve(state_.network->problem, how);
    iterations_ += solution.report.iterations;
  }
  if (!solution.report.is_usable()) {
    failure_ = solution.report.sentence;
    return false;
  }
  state_.solution = std::move(solution);
  return true;
}

/// Cheap, and true wherever `something_happened` finds something: most steps bring nothing.
bool SeasonSteps::something_may_happen() const {
  const std::vector<double>& head = state_.solution.state.head_m;
  for (const std::size_t spring : breakable_) {
    const double intake_m = in_metres(std::get<model::Spring>(farm_.places[spring].data).intake);
    if (head[state_.network->places[spring].node] < intake_m - least_rise_m) {
      return true;
    }
  }
  for (const std::size_t edge : summits_) {
    const Edge& summit = state_.network->problem.edges[edge];
    const double flow = state_.flow_m3_s(edge);
    const double gap = head[summit.up] - head[summit.down] - summit.linear_loss_s_m2 * flow;
    if (std::abs(flow) >= still_flow_m3_s && std::abs(gap) > parted_gap_m) {
      return true;
    }
  }
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    const auto* tee = std::get_if<model::Tee>(&farm_.places[i].data);
    if (tee != nullptr &&
        head[state_.network->places[i].node] < in_metres(tee->elevation) - least_suction_m &&
        !state_.options.opened_tees.contains(i)) {
      return true;
    }
  }
  return false;
}

/// Shuts lines that break or part, and opens tees that draw air. True where the step must be taken
/// again.
bool SeasonSteps::something_happened() {
  read_heads(state_);
  const std::size_t before = stopped_.size();
  for (const BrokenLine& line : lines_that_break(state_)) {
    stopped_.push_back({line, false});
  }
  if (stopped_.size() == before) {
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      if (state_.network->pipes[i].break_edge.empty() || !state_.is_running(i)) {
        continue;
      }
      for (const SummitAnswer& summit : pipe_answer(state_, i).summits) {
        if (summit.parted) {
          BrokenLine line;
          line.spring = farm_.pipes[i].from;
          line.pipe = i;
          line.high_pipe = i;
          line.high_at_m = summit.at_m;
          line.high_elevation_m = summit.elevation_m;
          stopped_.push_back({line, true});
          break;
        }
      }
    }
  }
  for (std::size_t i = before; i < stopped_.size(); ++i) {
    state_.options.broken_pipes.insert(stopped_[i].line.pipe);
  }
  if (stopped_.size() > before) {
    return true;
  }
  const std::vector<DrawingTee> drawing = tees_that_draw_air(state_);
  for (const DrawingTee& tee : drawing) {
    state_.options.opened_tees.insert(tee.tee);
    drawing_.push_back(tee);
  }
  return !drawing.empty();
}

bool SeasonSteps::advance(const StepWishes& wishes, double seconds, StepWater& water) {
  if (stale_) {
    rebuild();
  }
  while (true) {
    put_wishes(wishes, seconds);
    if (!solve()) {
      const double half_s = 0.5 * seconds;
      return half_s >= least_step_s && advance(wishes, half_s, water) &&
             advance(wishes, seconds - half_s, water);
    }
    // Every round shuts a line or opens a tee, so there are at most as many as pipes and tees.
    if (!something_may_happen() || !something_happened()) {
      break;
    }
    rebuild();
  }
  account(wishes, seconds, water);
  return true;
}

void SeasonSteps::account(const StepWishes& wishes, double seconds, StepWater& water) {
  const FarmNetwork& network = *state_.network;
  const nodal::Problem& problem = network.problem;
  const auto moved = [&](std::size_t edge) { return seconds * state_.flow_m3_s(edge); };
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    const PlaceNode& place = network.places[i];
    PlaceWater& here = water.places[i];
    if (place.supply_edge != no_index) {
      here.given_m3 += moved(place.supply_edge);
    }
    if (place.spill_edge != no_index) {
      here.spilled_m3 += moved(place.spill_edge);
    }
    if (place.drink_edge != no_index) {
      here.taken_m3 += moved(place.drink_edge);
    } else if (place.discharge_edge != no_index) {
      const double all = moved(place.discharge_edge);
      const double waste = state_.options.open_floats.contains(i)
                               ? std::max(0.0, all - seconds * wishes.taken_m3_s[i])
                               : 0.0;
      here.taken_m3 += all - waste;
      here.wasted_m3 += waste;
    }
    if (place.store_node != no_index) {
      const std::size_t store = stores_.of_place(i);
      level_m_[store] = state_.solution.state.head_m[place.store_node];
      volume_m3_[store] = stores_.laws()[store].at(level_m_[store]).volume_m3;
      water.rain_m3 += seconds * problem.nodes[place.store_node].inflow_m3_s;
    }
  }
  for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
    const PipeEdges& pipe = network.pipes[i];
    const double left = moved(pipe.stretch_edge.front());
    const double arrived = moved(pipe.stretch_edge.back());
    PlaceWater& from = water.places[farm_.pipes[i].from];
    from.piped_m3 -= left;
    from.drawn_m3 += std::max(0.0, left);
    PlaceWater& to = water.places[farm_.pipes[i].to];
    to.piped_m3 += arrived;
    to.drawn_m3 += std::max(0.0, -arrived);
    for (const std::size_t spill : pipe.vent_spill) {
      water.vents_m3 += spill == no_index ? 0.0 : moved(spill);
    }
  }
  // A surface that the farm does not change gives what its pipes take.
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    const model::Place& place = farm_.places[i];
    const bool surface = std::holds_alternative<model::Creek>(place.data) ||
                         (std::holds_alternative<model::Pond>(place.data) &&
                          network.places[i].store_node == no_index);
    if (surface) {
      water.places[i].given_m3 = -water.places[i].piped_m3;
    }
  }
}

double SeasonSteps::stored_m3() const {
  double sum = 0.0;
  for (const double volume : volume_m3_) {
    sum += volume;
  }
  return sum;
}

}  // namespace leat::solver
