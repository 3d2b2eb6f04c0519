#include "solver/carry_over.h"

#include <cmath>
#include <limits>
#include <utility>

namespace leat::solver {

namespace {

class Carrier {
 public:
  Carrier(const FlowState& before, const FarmNetwork& network)
      : before_(before), network_(network) {
    start_.head_m.assign(network.problem.nodes.size(), std::numeric_limits<double>::quiet_NaN());
    start_.flow_m3_s.assign(network.problem.edges.size(), 0.0);
  }

  nodal::State carry() {
    for (std::size_t i = 0; i < network_.places.size(); ++i) {
      const PlaceNode& from = before_.network->places[i];
      const PlaceNode& to = network_.places[i];
      put_head(from.node, to.node);
      if (from.store_node != no_index && to.store_node != no_index) {
        put_head(from.store_node, to.store_node);
      }
      put_flow(from.drink_edge, to.drink_edge);
      put_flow(from.supply_edge, to.supply_edge);
      put_flow(from.discharge_edge, to.discharge_edge);
      put_flow(from.spill_edge, to.spill_edge);
    }
    for (std::size_t i = 0; i < network_.pipes.size(); ++i) {
      carry_pipe(before_.network->pipes[i], network_.pipes[i], i);
    }
    for (std::size_t i = 0; i < network_.pumps.size(); ++i) {
      put_flow(before_.network->pumps[i].edge, network_.pumps[i].edge);
      put_flow(before_.network->pumps[i].from_edge, network_.pumps[i].from_edge);
    }
    for (std::size_t i = 0; i < network_.rams.size(); ++i) {
      put_flow(before_.network->rams[i].delivery_edge, network_.rams[i].delivery_edge);
    }
    return std::move(start_);
  }

 private:
  void put_head(std::size_t from, std::size_t to) {
    start_.head_m[to] = before_.solution.state.head_m[from];
  }

  void put_flow(std::size_t from, std::size_t to) {
    if (from != no_index && to != no_index) {
      start_.flow_m3_s[to] = before_.flow_m3_s(from);
    }
  }

  void carry_pipe(const PipeEdges& from, const PipeEdges& to, std::size_t pipe) {
    for (std::size_t i = 0; i < to.stretch_edge.size(); ++i) {
      put_head(from.start_node[i], to.start_node[i]);
      put_head(from.end_node[i], to.end_node[i]);
      put_flow(from.stretch_edge[i], to.stretch_edge[i]);
    }
    for (std::size_t i = 0; i < to.break_edge.size(); ++i) {
      put_flow(from.break_edge[i], to.break_edge[i]);
      put_flow(from.vent_spill[i], to.vent_spill[i]);
    }
    carry_end(from.from_end_edge, to.from_end_edge, pipe);
    carry_end(from.to_end_edge, to.to_end_edge, pipe);
  }

  /// The edge that joins a pipe to its place; one that is new stands at an opened tee.
  void carry_end(std::size_t from, std::size_t to, std::size_t pipe) {
    put_flow(from, to);
    if (from != no_index || to == no_index) {
      return;
    }
    const nodal::Edge& edge = network_.problem.edges[to];
    start_.flow_m3_s[to] = before_.pipe_flow_m3_s(pipe);
    for (const std::size_t node : {edge.up, edge.down}) {
      start_.head_m[node] = std::fmax(start_.head_m[node], edge.level_m);
    }
  }

  const FlowState& before_;
  const FarmNetwork& network_;
  nodal::State start_;
};

}  // namespace

nodal::State carried_over(const FlowState& before, const FarmNetwork& network) {
  return Carrier(before, network).carry();
}

}  // namespace leat::solver
