#include "solver/flow/carried_start.h"

#include <cmath>
#include <limits>
#include <utility>
#include <vector>

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
    for (std::size_t i = 0; i < before_.network->places.size(); ++i) {
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
    const std::size_t old_pipes = before_.network->pipes.size();
    for (std::size_t i = 0; i < network_.pipes.size(); ++i) {
      if (i < old_pipes) {
        carry_pipe(before_.network->pipes[i], network_.pipes[i], i);
      } else {
        begin_pipe(network_.pipes[i]);
      }
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
    if (from.stretch_edge.size() != to.stretch_edge.size() ||
        from.break_edge.size() != to.break_edge.size()) {
      carry_ends(from, to, pipe);
      return;
    }
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

  /// A pipe cut otherwise than before: what ran through it runs through all its parts.
  void carry_ends(const PipeEdges& from, const PipeEdges& to, std::size_t pipe) {
    put_head(from.start_node.front(), to.start_node.front());
    put_head(from.end_node.back(), to.end_node.back());
    for (const std::vector<std::size_t>* edges : {&to.stretch_edge, &to.break_edge}) {
      for (const std::size_t edge : *edges) {
        start_.flow_m3_s[edge] = before_.pipe_flow_m3_s(pipe);
      }
    }
    carry_end(from.from_end_edge, to.from_end_edge, pipe);
    carry_end(from.to_end_edge, to.to_end_edge, pipe);
  }

  /// A pipe that was not there before begins as in a solve from nothing.
  void begin_pipe(const PipeEdges& pipe) {
    for (const std::vector<std::size_t>* edges : {&pipe.stretch_edge, &pipe.break_edge}) {
      for (const std::size_t edge : *edges) {
        start_.flow_m3_s[edge] = network_.problem.edges[edge].start_flow_m3_s;
      }
    }
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
      if (node != nodal::outside) {
        start_.head_m[node] = std::fmax(start_.head_m[node], edge.level_m);
      }
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
