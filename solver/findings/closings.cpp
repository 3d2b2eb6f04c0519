#include "solver/findings/closings.h"

#include <algorithm>
#include <cmath>

#include "solver/findings/pipe_strength.h"
#include "solver/findings/route.h"
#include "solver/hydraulics/pressure_wave.h"

namespace leat::solver {

namespace {

/// Something that shuts, as one load case has it.
struct ShutOff {
  Closing closing;
  std::size_t pipe = 0;
  double flow_m3_s = 0.0;
  double closing_s = 0.0;
  std::vector<RouteStep> route;  // from what shuts back to open water, the pipe itself first
};

std::vector<RouteStep> route_behind(const SolvedCase& solved,
                                    std::size_t pipe,
                                    std::size_t place,
                                    double own_length_m) {
  std::vector<RouteStep> route{{pipe, own_length_m}};
  if (!model::is_open_water(solved.state.farm->places[place])) {
    const std::vector<RouteStep> rest = route_to_open_water(solved.state, place, pipe);
    if (rest.empty()) {
      return {};
    }
    route.insert(route.end(), rest.begin(), rest.end());
  }
  return route;
}

std::optional<ShutOff> float_at_end(const SolvedCase& solved, std::size_t index) {
  const model::Pipe& pipe = solved.state.farm->pipes[index];
  const model::Place& end = solved.state.farm->places[pipe.to];
  const auto* trough = std::get_if<model::Trough>(&end.data);
  if (trough == nullptr) {
    return std::nullopt;
  }
  const double length_m = solved.state.network->pipes[index].cut.course.length_m;
  return ShutOff{{Closing::Kind::Float, end.name},
                 index,
                 solved.places[pipe.to].delivered_m3_s,
                 in_seconds(trough->closes_in),
                 route_behind(solved, index, pipe.from, length_m)};
}

std::optional<ShutOff> valve_in(const SolvedCase& solved, std::size_t index) {
  const model::Pipe& pipe = solved.state.farm->pipes[index];
  if (!pipe.valve || pipe.valve->shut) {
    return std::nullopt;
  }
  const PipeCourse& course = solved.state.network->pipes[index].cut.course;
  const double at_m = pipe.valve->place ? distance_of(*pipe.valve->place, course) : 0.0;
  const double along_m = course.at(at_m).along_m;
  const double flow = solved.pipes[index].flow_m3_s;
  const bool is_ball = pipe.valve->type == model::ValveType::Ball;
  return ShutOff{{is_ball ? Closing::Kind::BallValve : Closing::Kind::GateValve, pipe.name},
                 index,
                 std::abs(flow),
                 is_ball ? hydraulics::ball_valve_closes_in_s : hydraulics::gate_valve_closes_in_s,
                 flow >= 0.0 ? route_behind(solved, index, pipe.from, along_m)
                             : route_behind(solved, index, pipe.to, course.length_m - along_m)};
}

/// Gives every pipe of the route its share of the knock: a slow one dies away towards open water.
void knock(const SolvedCase& solved,
           const ShutOff& shut,
           std::vector<std::optional<Knock>>& knocks) {
  const std::vector<model::Pipe>& pipes = solved.state.farm->pipes;
  const std::optional<double> speed =
      wave_speed_in(pipes[shut.pipe], solved.state.surroundings.water.density_kg_m3);
  if (!speed) {
    return;
  }
  const double velocity = shut.flow_m3_s / in_square_metres(bore_area(pipes[shut.pipe].size.bore));
  double behind = 0.0;  // length times velocity from open water up to a pipe's nearer end
  for (std::size_t i = shut.route.size(); i-- > 0;) {
    const RouteStep& step = shut.route[i];
    behind +=
        step.length_m * shut.flow_m3_s / in_square_metres(bore_area(pipes[step.pipe].size.bore));
    const double head_m = hydraulics::surge_head_m(*speed, velocity, behind, shut.closing_s);
    std::optional<Knock>& hardest = knocks[step.pipe];
    if (!hardest || head_m > hardest->head_m + 1e-9) {
      hardest = Knock{head_m, shut.closing, shut.closing_s, solved.load_case};
    }
  }
}

}  // namespace

bool something_shuts(const model::Farm& farm, const model::Pipe& pipe) {
  return std::holds_alternative<model::Trough>(farm.places[pipe.to].data) ||
         (pipe.valve && !pipe.valve->shut);
}

std::vector<std::optional<Knock>> knocks_of(const Judging& on) {
  std::vector<std::optional<Knock>> knocks(on.farm.pipes.size());
  for (const SolvedCase& solved : on.cases) {
    if (solved.is_static()) {
      continue;
    }
    for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
      for (const std::optional<ShutOff>& shut : {float_at_end(solved, i), valve_in(solved, i)}) {
        if (shut) {
          knock(solved, *shut, knocks);
        }
      }
    }
  }
  return knocks;
}

}  // namespace leat::solver
