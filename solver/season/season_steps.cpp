#include "solver/season/season_steps.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "solver/day/farm_of_day.h"
#include "solver/flow/carried_start.h"
#include "solver/flow/place_answers.h"
#include "solver/flow/pumps_and_rams.h"
#include "solver/network/status_limits.h"
#include "solver/nodal/pattern.h"

namespace leat::solver {

namespace {

using nodal::Edge;

/// A step that finds no balance is halved, but not below this.
constexpr double least_step_s = 30.0;
constexpr double second_scale_share = 0.37;
/// How softly limits are taken where a step is no small change (1e-4 and 1 took more iterations).
constexpr double changed_farm_smoothing_m = 0.1;
/// A tee opened on a guess draws no air where water stands higher above it than this: what falls
/// into its pipes stands over their mouths by millimetres (`intake_depth_s_m2`).
constexpr double surely_full_above_m = 0.02;
/// So many networks are kept; a farm that makes more of them begins anew.
constexpr std::size_t most_shapes = 64;
/// A tee that drew air is full again where water stands above it by this.
constexpr double full_above_m = 1e-3;
/// A pump that runs for less than this share of a step does not run in it.
constexpr double least_pump_share = 1e-6;

/// Whether some vertex or tee that water from a spring may pass stands above its intake: such a
/// line can break.
bool can_break(const model::Farm& farm, const PipesByPlace& pipes_of, std::size_t spring) {
  const double intake_m = in_metres(*model::intake_of(farm.places[spring]));
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
      if (!model::is_tee(farm.places[far]) || seen[far]) {
        continue;
      }
      if (in_metres(model::level_of(farm.places[far], std::nullopt)) > intake_m + least_rise_m) {
        return true;
      }
      seen[far] = true;
      open.push_back(far);
    }
  }
  return false;
}

/// Gives a pond the surface at which the season begins.
void put_surface(model::Place& place, double level_m) {
  using namespace model;
  std::visit(Overload{[level_m](Pond& pond) {
                        pond.surface = MonthSeries<Elevation>::constant(elevation_metres(level_m));
                      },
                      [](const AnyOf<Spring, Creek, Tank, Trough, Outlet, Tee> auto&) {}},
             place.data);
}

}  // namespace

void StepWater::clear() {
  std::fill(places.begin(), places.end(), PlaceWater{});
  std::fill(lifters.begin(), lifters.end(), LifterWater{});
  std::fill(pipe_m3.begin(), pipe_m3.end(), 0.0);
  vents_m3 = 0.0;
  rain_m3 = 0.0;
}

SeasonSteps::SeasonSteps(const model::Farm& farm, const FarmStores& stores)
    : farm_(farm), stores_(stores) {
  for (const StoreLaw& store : stores_.laws()) {
    level_m_.push_back(store.start_m);
    volume_m3_.push_back(store.at(store.start_m).volume_m3);
    // The network's pipes end where they lie, whatever the level is later.
    put_surface(farm_.places[store.place], store.start_m);
  }
  state_.farm = &farm_;
  state_.options.stores = &stores_;
  const PipesByPlace pipes_of(farm_);
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    if (model::is_spring(farm_.places[i]) && can_break(farm_, pipes_of, i)) {
      breakable_.push_back(i);
    }
  }
}

void SeasonSteps::begin_day(const DayValues& values) {
  // What a spring yields is put into the network as it stands; a ram is set by it.
  const bool is_new = put_day(values, stores_, farm_) || !farm_.rams.empty();
  changes_ += is_new ? 1 : 0;
  part_ = 0;
  drawing_.clear();
  std::erase_if(state_.options.opened_tees,
                [this](std::size_t tee) { return is_full(tee, full_above_m); });
  if (state_.network != nullptr) {
    put_yields();
  }
}

bool SeasonSteps::is_full(std::size_t tee, double above_m) const {
  const double level_m = in_metres(model::level_of(farm_.places[tee], std::nullopt));
  return state_.solution.state.head_m[state_.network->places[tee].node] > level_m + above_m;
}

void SeasonSteps::put_yields() {
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    if (const model::MonthSeries<Flow>* yield = model::yield_of(farm_.places[i])) {
      state_.network->problem.edges[state_.network->places[i].supply_edge].limit_m3_s =
          in_cubic_metres_per_second(yield->at(std::nullopt));
    }
  }
}

void SeasonSteps::break_float(std::size_t place) {
  state_.options.open_floats.insert(place);
}

/// Takes up the network that fits the farm and the day as they are now.
void SeasonSteps::enter_shape() {
  const NetworkOptions& options = state_.options;
  ShapeKey key{
      options.opened_tees, options.broken_pipes, options.open_floats, options.stopped_pumps};
  if (shapes_.size() >= most_shapes && !shapes_.contains(key)) {
    std::erase_if(shapes_, [this](const auto& kept) { return &kept.second != shape_; });
  }
  Shape& shape = shapes_[std::move(key)];
  const bool is_first = shape_ == nullptr;
  const bool is_other = &shape != shape_;
  if (!is_other && shape.built_for == changes_) {
    return;
  }
  std::unique_ptr<FarmNetwork> network = std::move(is_other ? shape.network : state_.network);
  bool is_new = network == nullptr;
  std::unique_ptr<FarmNetwork> before = is_other ? std::move(state_.network) : nullptr;
  if (shape.built_for != changes_) {
    state_.surroundings = surroundings_of(farm_, std::nullopt);
    std::unique_ptr<FarmNetwork> built = network_of(farm_, state_.surroundings, options);
    is_new = is_new || !nodal::have_one_pattern(built->problem, network->problem);
    if (is_new && !is_other) {
      before = std::move(network);
    }
    network = std::move(built);
    shape.built_for = changes_;
  }
  if (is_new) {
    shape.solver.emplace(network->problem);
    shape.by_part.clear();
  }
  if (is_first) {
    nodal::State& start = state_.solution.state;
    start.head_m.assign(network->problem.nodes.size(), std::numeric_limits<double>::quiet_NaN());
    start.flow_m3_s.assign(network->problem.edges.size(), 0.0);
    for (std::size_t i = 0; i < network->problem.edges.size(); ++i) {
      start.flow_m3_s[i] = network->problem.edges[i].start_flow_m3_s;
    }
  } else if (before != nullptr) {
    state_.network = std::move(before);
    nodal::State start = carried_over(state_, *network);
    before = std::move(state_.network);
    state_.solution.state = std::move(start);
  }
  if (is_first || before != nullptr) {
    for (std::size_t i = 0; i < stores_.laws().size(); ++i) {
      const std::size_t node = network->places[stores_.laws()[i].place].store_node;
      state_.solution.state.head_m[node] = level_m_[i];
    }
    changed_ = true;
  }
  if (is_other && shape_ != nullptr) {
    shape_->network = std::move(before);
  }
  shape_ = &shape;
  state_.network = std::move(network);
  put_yields();
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

/// The answer at this step of the day before, its levels moved as those at the step's start were;
/// none where the network was another then.
const nodal::State* SeasonSteps::yesterdays_state() {
  if (part_ >= shape_->by_part.size() || shape_->by_part[part_].level_m.empty()) {
    return nullptr;
  }
  const Shape::Remembered& then = shape_->by_part[part_];
  guess_ = then.state;
  for (std::size_t i = 0; i < level_m_.size(); ++i) {
    guess_.head_m[state_.network->places[stores_.laws()[i].place].store_node] +=
        level_m_[i] - then.level_m[i];
  }
  return &guess_;
}

void SeasonSteps::remember() {
  if (shape_->by_part.size() <= part_) {
    shape_->by_part.resize(part_ + 1);
  }
  shape_->by_part[part_].state = state_.solution.state;
  shape_->by_part[part_].level_m = level_m_;
  if (open_by_part_.size() <= part_) {
    open_by_part_.resize(part_ + 1);
  }
  if (open_by_part_[part_] != state_.options.opened_tees) {
    open_by_part_[part_] = state_.options.opened_tees;
  }
}

bool SeasonSteps::solve(bool is_whole) {
  nodal::SolveOptions how;
  how.warm_smoothing_m = changed_farm_smoothing_m;
  const nodal::State* yesterday = is_whole ? yesterdays_state() : nullptr;
  nodal::Solution solution;
  nodal::NodalSolver& solver = *shape_->solver;
  if (yesterday != nullptr) {
    solution = solver.solve(
        state_.network->problem, how, yesterday, changed_ ? nullptr : &state_.solution.state);
  } else {
    how.small_change = !changed_;
    solution = solver.solve(state_.network->problem, how, &state_.solution.state);
  }
  changed_ = false;
  iterations_ += solution.report.iterations;
  ++solves_;
  if (!solution.report.is_usable()) {
    how.scale_s_m2 *= second_scale_share;
    solution = solver.solve(state_.network->problem, how);
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
    const double intake_m = in_metres(*model::intake_of(farm_.places[spring]));
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
    const model::Place& tee = farm_.places[i];
    if (model::is_tee(tee) &&
        head[state_.network->places[i].node] <
            in_metres(model::level_of(tee, std::nullopt)) - least_suction_m &&
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

/// Tees that stood open at this step of the day before are opened at once: without that, air would
/// be found on its way to each of them again, one iteration after the other.
std::vector<std::size_t> SeasonSteps::open_tees_guessed() {
  std::vector<std::size_t> guessed;
  if (part_ < open_by_part_.size()) {
    for (const std::size_t tee : open_by_part_[part_]) {
      if (state_.options.opened_tees.insert(tee).second) {
        guessed.push_back(tee);
      }
    }
  }
  return guessed;
}

/// A tee opened on a guess and full of water draws no air. True where there was one.
bool SeasonSteps::close_guessed_that_are_full(std::vector<std::size_t>& guessed) {
  return std::erase_if(guessed, [this](std::size_t tee) {
           const bool draws_none = is_full(tee, surely_full_above_m);
           if (draws_none) {
             state_.options.opened_tees.erase(tee);
           }
           return draws_none;
         }) > 0;
}

bool SeasonSteps::advance_part(const StepWishes& wishes,
                               double seconds,
                               bool is_whole,
                               StepWater& water) {
  std::vector<std::size_t> guessed = is_whole ? open_tees_guessed() : std::vector<std::size_t>{};
  while (true) {
    enter_shape();
    put_wishes(wishes, seconds);
    if (!solve(is_whole)) {
      if (!guessed.empty()) {
        for (const std::size_t tee : guessed) {
          state_.options.opened_tees.erase(tee);
        }
        guessed.clear();
        continue;
      }
      const double half_s = 0.5 * seconds;
      return half_s >= least_step_s && advance_part(wishes, half_s, false, water) &&
             advance_part(wishes, seconds - half_s, false, water);
    }
    if (!guessed.empty() && close_guessed_that_are_full(guessed)) {
      continue;
    }
    // Every iteration shuts a line or opens a tee, so there are at most as many as pipes and tees.
    if (!something_may_happen() || !something_happened()) {
      break;
    }
  }
  if (is_whole) {
    remember();
  }
  account(wishes, seconds, water);
  return true;
}

bool SeasonSteps::advance(const StepWishes& wishes, double seconds, StepWater& water) {
  // A step in which a pump runs for a while only is cut where it stops.
  double done = 0.0;
  while (done < 1.0) {
    double next = 1.0;
    std::set<std::size_t> stopped;
    for (std::size_t i = 0; i < wishes.pump_share.size(); ++i) {
      if (wishes.pump_share[i] <= done + least_pump_share) {
        stopped.insert(i);
      } else if (wishes.pump_share[i] < next - least_pump_share) {
        next = wishes.pump_share[i];
      }
    }
    state_.options.stopped_pumps = std::move(stopped);
    if (!advance_part(wishes, seconds * (next - done), true, water)) {
      return false;
    }
    done = next;
  }
  ++part_;
  return true;
}

void SeasonSteps::account(const StepWishes& wishes, double seconds, StepWater& water) {
  const FarmNetwork& network = *state_.network;
  water.pipe_m3.resize(farm_.pipes.size(), 0.0);
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    account_place(i, wishes.taken_m3_s[i], seconds, water.places[i]);
    if (network.places[i].store_node != no_index) {
      take_level(i);
      water.rain_m3 += seconds * network.problem.nodes[network.places[i].store_node].inflow_m3_s;
    }
  }
  for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
    account_pipe(i, seconds, water);
  }
  account_lifters(seconds, water);
  // A surface that the farm does not change gives what its pipes take.
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    if (model::is_natural_water(farm_.places[i]) && network.places[i].store_node == no_index) {
      water.places[i].given_m3 = -water.places[i].piped_m3;
    }
  }
}

double SeasonSteps::moved_m3(std::size_t edge, double seconds) const {
  return seconds * state_.flow_m3_s(edge);
}

/// What a place gave, spilled and took.
void SeasonSteps::account_place(std::size_t index,
                                double wanted_m3_s,
                                double seconds,
                                PlaceWater& here) const {
  const PlaceNode& place = state_.network->places[index];
  if (place.supply_edge != no_index) {
    here.given_m3 += moved_m3(place.supply_edge, seconds);
  }
  if (place.spill_edge != no_index) {
    here.spilled_m3 += moved_m3(place.spill_edge, seconds);
  }
  if (place.drink_edge != no_index) {
    here.taken_m3 += moved_m3(place.drink_edge, seconds);
  } else if (place.discharge_edge != no_index) {
    const double all = moved_m3(place.discharge_edge, seconds);
    const double waste = state_.options.open_floats.contains(index)
                             ? std::max(0.0, all - seconds * wanted_m3_s)
                             : 0.0;
    here.taken_m3 += all - waste;
    here.wasted_m3 += waste;
  }
}

/// The level at which a store ends the step.
void SeasonSteps::take_level(std::size_t place) {
  const std::size_t store = stores_.of_place(place);
  level_m_[store] = state_.solution.state.head_m[state_.network->places[place].store_node];
  volume_m3_[store] = stores_.laws()[store].at(level_m_[store]).volume_m3;
}

/// What a pipe took from its start, brought to its end, and lost over its vents.
void SeasonSteps::account_pipe(std::size_t index, double seconds, StepWater& water) const {
  const FarmNetwork& network = *state_.network;
  const PipeEdges& pipe = network.pipes[index];
  const double left = moved_m3(pipe.stretch_edge.front(), seconds);
  const double arrived = moved_m3(pipe.stretch_edge.back(), seconds);
  water.pipe_m3[index] += left;
  // A ram stands between the end of its drive pipe and the start of its delivery pipe.
  if (!is_fed_by_ram(index)) {
    PlaceWater& from = water.places[farm_.pipes[index].from];
    from.piped_m3 -= left;
    from.drawn_m3 += std::max(0.0, left);
  }
  if (network.ram_driven_by[index] == no_index) {
    PlaceWater& to = water.places[farm_.pipes[index].to];
    to.piped_m3 += arrived;
    to.drawn_m3 += std::max(0.0, -arrived);
  }
  for (const std::size_t spill : pipe.vent_spill) {
    water.vents_m3 += spill == no_index ? 0.0 : moved_m3(spill, seconds);
  }
}

bool SeasonSteps::is_fed_by_ram(std::size_t pipe) const {
  return std::any_of(farm_.rams.begin(), farm_.rams.end(), [&](const model::Ram& ram) {
    return ram.delivery == pipe;
  });
}

void SeasonSteps::account_lifters(double seconds, StepWater& water) {
  water.lifters.resize(farm_.pumps.size() + farm_.rams.size());
  if (water.lifters.empty()) {
    return;
  }
  read_heads(state_);
  const std::vector<LifterAnswer> answers = lifter_answers(state_);
  for (std::size_t i = 0; i < answers.size(); ++i) {
    const LifterAnswer& answer = answers[i];
    LifterWater& here = water.lifters[i];
    here.delivered_m3 += seconds * answer.flow_m3_s;
    here.wasted_m3 += seconds * answer.wasted_m3_s;
    here.energy_J += seconds * answer.power_W.value_or(0.0);
    const bool runs = answer.flow_m3_s > 0.0 || answer.wasted_m3_s > 0.0;
    here.running_s += runs ? seconds : 0.0;
    if (i < farm_.pumps.size()) {
      PlaceWater& from = water.places[farm_.pumps[i].from];
      from.piped_m3 -= seconds * answer.flow_m3_s;
      from.drawn_m3 += seconds * answer.flow_m3_s;
      water.places[farm_.pumps[i].to].piped_m3 += seconds * answer.flow_m3_s;
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
