#include "solver/network/network_builder.h"

#include <cmath>
#include <utility>

#include "solver/hydrology/ram.h"

namespace leat::solver {

using nodal::Edge;
using nodal::EdgeKind;

std::unique_ptr<FarmNetwork> NetworkBuilder::build() {
  network_->pipes_of = PipesByPlace(farm_);
  network_->places.resize(farm_.places.size());
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    add_place(i);
  }
  note_rams();
  network_->pipes.resize(farm_.pipes.size());
  for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
    add_pipe(i);
  }
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    add_end(i);
  }
  for (const model::Pump& pump : farm_.pumps) {
    add_pump(pump);
  }
  for (std::size_t i = 0; i < farm_.rams.size(); ++i) {
    add_ram(i);
  }
  const FarmNetwork* network = network_.get();
  network_->problem.share = [network](std::size_t edge, double lift_ratio) {
    const std::size_t ram = network->laws[edge].lifter;
    const hydrology::RamShare share =
        hydrology::ram_share_until_stall(lift_ratio, network->ram_efficiencies[ram]);
    return nodal::Share{share.share, share.slope_per_ratio};
  };
  network_->problem.loss = [network](std::size_t edge, double flow_m3_s) {
    return loss_of(*network, edge, flow_m3_s);
  };
  if (options_.stores != nullptr) {
    const FarmStores* stores = options_.stores;
    network_->problem.stored = [network, stores](std::size_t node, double head_m) {
      return stores->laws()[network->store_of_node[node]].at(head_m);
    };
  }
  return std::move(network_);
}

nodal::Loss NetworkBuilder::loss_of(const FarmNetwork& network,
                                    std::size_t edge,
                                    double flow_m3_s) {
  const FarmNetwork::LawOfEdge& law = network.laws[edge];
  if (law.pipe != no_index) {
    const Stretch& stretch = network.pipes[law.pipe].cut.stretches[law.stretch];
    const hydraulics::LossAndSlope loss = hydraulics::stretch_loss(stretch.law, flow_m3_s);
    return {loss.loss_m, loss.slope_s_m2};
  }
  if (law.lifter != no_index) {
    const hydrology::TableValue head = network.pump_curves[law.lifter].head_m(flow_m3_s);
    return {join_loss_s_m2 * flow_m3_s - head.value, join_loss_s_m2 - head.slope};
  }
  hydraulics::LossAndSlope loss;
  if (law.end.kind == EndLaw::Kind::Orifice) {
    loss = hydraulics::orifice_loss(law.end.orifice, flow_m3_s);
  } else if (law.end.kind == EndLaw::Kind::VelocityHead) {
    const double per_square = law.end.k * hydraulics::velocity_head_m(law.end.bore_m, 1.0);
    loss = {per_square * flow_m3_s * std::abs(flow_m3_s), 2.0 * per_square * std::abs(flow_m3_s)};
  }
  // The least slope of any law, with the value that belongs to it.
  return {loss.loss_m + hydraulics::least_slope_s_m2 * flow_m3_s,
          loss.slope_s_m2 + hydraulics::least_slope_s_m2};
}

std::size_t NetworkBuilder::add_node(std::optional<double> fixed_head_m) {
  network_->problem.nodes.push_back({fixed_head_m, 0.0});
  return network_->problem.nodes.size() - 1;
}

std::size_t NetworkBuilder::add_edge(Edge edge, FarmNetwork::LawOfEdge law) {
  network_->problem.edges.push_back(edge);
  network_->laws.push_back(law);
  return network_->problem.edges.size() - 1;
}

const StoreLaw* NetworkBuilder::store_at(std::size_t place) const {
  return options_.stores == nullptr ? nullptr : options_.stores->find(place);
}

std::optional<double> NetworkBuilder::held_surface_m(std::size_t place) const {
  const bool floats = options_.stores != nullptr &&
                      (store_at(place) != nullptr || model::is_tank(farm_.places[place]));
  return floats ? std::nullopt : surface_m(farm_.places[place], options_.month);
}

std::size_t NetworkBuilder::add_spill(std::size_t node, double level_m) {
  Edge edge;
  edge.kind = EdgeKind::Discharge;
  edge.up = node;
  edge.level_m = level_m;
  edge.linear_loss_s_m2 = spill_rise_s_m2;
  return add_edge(edge);
}

std::size_t NetworkBuilder::add_free_end(const model::Pipe& pipe,
                                         std::size_t up,
                                         std::size_t down,
                                         double level_m,
                                         std::optional<double> k) {
  Edge edge;
  edge.kind = EdgeKind::Discharge;
  edge.up = up;
  edge.down = down;
  edge.level_m = level_m;
  edge.has_loss = true;
  edge.linear_loss_s_m2 = spill_rise_s_m2;
  edge.start_flow_m3_s = start_flow_m3_s_;
  EndLaw law;
  law.kind = EndLaw::Kind::VelocityHead;
  law.bore_m = in_metres(pipe.size.bore);
  law.k = k.value_or(exit_k);
  return add_edge(edge, {no_index, 0, law});
}

std::size_t NetworkBuilder::add_crest(std::size_t up,
                                      std::size_t down,
                                      double floor_m,
                                      double velocity_head) {
  Edge edge;
  edge.kind = EdgeKind::Crest;
  edge.up = up;
  edge.down = down;
  edge.level_m = floor_m;
  edge.velocity_head_s2_m5 = velocity_head;
  edge.linear_loss_s_m2 = join_loss_s_m2;
  edge.floor_loss_s_m2 = join_loss_s_m2;
  edge.start_flow_m3_s = start_flow_m3_s_;
  return add_edge(edge);
}

std::size_t NetworkBuilder::add_store_end(std::size_t up, std::size_t down, double level_m) {
  const std::size_t edge = add_crest(up, down, level_m, 0.0);
  network_->problem.edges[edge].floor_loss_s_m2 = intake_depth_s_m2;
  return edge;
}

}  // namespace leat::solver
