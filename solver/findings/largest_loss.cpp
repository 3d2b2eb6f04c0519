#include "solver/findings/largest_loss.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include "model/catalogue/fitting_catalogue.h"
#include "solver/hydraulics/friction.h"
#include "solver/hydraulics/head_loss.h"

namespace leat::solver {

namespace {

/// One thing on the way and the head it takes.
struct HeadLoss {
  double head_m = 0.0;
  HeadTaker taker;
};

/// Follows the largest flow upstream from a place. Stops at open water.
std::vector<std::size_t> route_upstream(const FlowState& state, std::size_t place) {
  const model::Farm& farm = *state.farm;
  std::vector<std::size_t> route;
  std::size_t here = place;
  for (std::size_t guard = 0; guard < farm.pipes.size(); ++guard) {
    std::size_t best = no_index;
    double most = still_flow_m3_s;
    for (const std::size_t i : state.network->pipes_of.at(here)) {
      const double flow = state.pipe_flow_m3_s(i);
      const bool enters =
          (farm.pipes[i].to == here && flow > most) || (farm.pipes[i].from == here && -flow > most);
      if (enters) {
        best = i;
        most = std::abs(flow);
      }
    }
    if (best == no_index) {
      break;
    }
    route.push_back(best);
    here = farm.pipes[best].to == here ? farm.pipes[best].from : farm.pipes[best].to;
    if (model::is_open_water(farm.places[here])) {
      break;
    }
  }
  return route;
}

HeadTaker taker_at_end(const model::Place& place) {
  using model::AnyOf;
  return std::visit(Overload{[](const model::Trough& trough) -> HeadTaker {
                               if (trough.seat) {
                                 return FloatSeat{in_metres(*trough.seat)};
                               }
                               return FloatValve{};
                             },
                             [](const AnyOf<model::Outlet,
                                            model::Spring,
                                            model::Creek,
                                            model::Pond,
                                            model::Tank,
                                            model::Tee> auto&) -> HeadTaker { return OpenEnd{}; }},
                    place.data);
}

void add_regulators(const FlowState& state, std::size_t index, std::vector<HeadLoss>& losses) {
  const PipeEdges& edges = state.network->pipes[index];
  for (std::size_t i = 0; i < edges.cut.breaks.size(); ++i) {
    const std::optional<double> before = state.head_m(edges.end_node[i]);
    const std::optional<double> after = state.head_m(edges.start_node[i + 1]);
    if (edges.cut.breaks[i].kind == Break::Kind::Regulator && before && after) {
      losses.push_back(
          {std::abs(*before - *after), PressureRegulator{state.farm->pipes[index].name}});
    }
  }
}

/// A part-open valve, what else stands in the pipe, its friction, its regulators.
void add_pipe(const FlowState& state, std::size_t index, std::vector<HeadLoss>& losses) {
  const model::Pipe& pipe = state.farm->pipes[index];
  const PipeEdges& edges = state.network->pipes[index];
  const double flow = state.pipe_flow_m3_s(index);
  double total = 0.0;
  double friction = 0.0;
  for (std::size_t i = 0; i < edges.stretch_edge.size(); ++i) {
    const nodal::Loss loss = state.network->problem.loss(edges.stretch_edge[i], flow);
    total += loss.loss_m + (flow > 0.0 ? edges.cut.stretches[i].opening_head_m : 0.0);
    friction += hydraulics::friction_loss(edges.cut.stretches[i].friction, flow).loss_m;
  }
  total = std::abs(total);
  friction = std::min(total, std::abs(friction));
  double fittings = total - friction;
  if (pipe.valve && !pipe.valve->shut && pipe.valve->open < 1.0) {
    const double velocity_head = hydraulics::velocity_head_m(in_metres(pipe.size.bore), flow);
    const double k =
        model::valve_loss_coefficient(pipe.valve->type, pipe.valve->open, pipe.size.bore);
    const double valve = std::min(fittings, k * velocity_head);
    losses.push_back({valve, PartOpenValve{pipe.name, pipe.valve->open}});
    fittings -= valve;
  }
  losses.push_back({fittings, FittingsAndEnds{pipe.name}});
  losses.push_back({friction, PipeFriction{pipe.name, in_metres(pipe.length), pipe.size.text}});
  add_regulators(state, index, losses);
}

}  // namespace

LargestLoss largest_loss(const FlowState& state, std::size_t place, double head_m) {
  const model::Place& end = state.farm->places[place];
  std::vector<HeadLoss> losses{
      {head_m - in_metres(model::level_of(end, std::nullopt)), taker_at_end(end)}};
  for (const std::size_t pipe : route_upstream(state, place)) {
    add_pipe(state, pipe, losses);
  }
  double fall_m = 0.0;
  for (const HeadLoss& loss : losses) {
    fall_m += loss.head_m;
  }
  HeadLoss& largest =
      *std::max_element(losses.begin(), losses.end(), [](const HeadLoss& a, const HeadLoss& b) {
        return a.head_m < b.head_m;
      });
  return {.taker = std::move(largest.taker), .head_m = largest.head_m, .fall_m = fall_m};
}

}  // namespace leat::solver
