#include <algorithm>
#include <utility>
#include <vector>

#include "solver/network/network_builder.h"

namespace leat::solver {

using nodal::Edge;
using nodal::EdgeKind;

void NetworkBuilder::note_rams() {
  network_->ram_driven_by.assign(farm_.pipes.size(), no_index);
  for (std::size_t i = 0; i < farm_.rams.size(); ++i) {
    network_->ram_driven_by[farm_.rams[i].drive] = i;
  }
}

void NetworkBuilder::add_pump(const model::Pump& pump) {
  const std::size_t index = network_->pumps.size();
  std::vector<hydrology::TablePoint> points;
  for (const auto& [flow, head] : pump.curve) {
    points.push_back({in_cubic_metres_per_second(flow), in_metres(head)});
  }
  PumpEdge made;
  Edge edge;
  edge.kind = EdgeKind::Pump;
  edge.up = network_->places[pump.from].node;
  edge.down = network_->places[pump.to].node;
  edge.closed = options_.stopped_pumps.contains(index);
  edge.has_loss = true;
  edge.start_flow_m3_s = 0.5 * points.back().x;
  const model::Place& from = farm_.places[pump.from];
  const bool from_air = options_.opened_tees.contains(pump.from);
  const StoreLaw* store = store_at(pump.from);
  if (from_air || store != nullptr || model::settles(from)) {
    // It draws what stands over its mouth there and no more.
    double level_m = store != nullptr ? store->bottom_m : 0.0;
    const std::optional<Elevation> intake = model::intake_of(from);
    if (model::is_tank(from) || model::is_tee(from)) {
      level_m = in_metres(intake.value_or(model::level_of(from, options_.month)));
    } else if (model::is_pond(from) && intake) {
      level_m = std::max(level_m, in_metres(*intake));
    }
    edge.up = add_node();
    made.from_edge = add_store_end(network_->places[pump.from].node, edge.up, level_m);
  }
  network_->pump_curves.emplace_back(std::move(points));
  FarmNetwork::LawOfEdge law;
  law.lifter = index;
  made.edge = add_edge(edge, law);
  network_->pumps.push_back(made);
}

double NetworkBuilder::ram_level_m(const model::Ram& ram) const {
  const model::Pipe& drive = farm_.pipes[ram.drive];
  return in_metres(ram.level.value_or(model::to_end_level(farm_, drive, options_.month)));
}

std::optional<double> NetworkBuilder::drive_limit_m3_s(const model::Ram& ram) const {
  std::optional<double> limit;
  if (ram.takes) {
    limit = in_cubic_metres_per_second(*ram.takes);
  }
  const model::Place& source = farm_.places[farm_.pipes[ram.drive].from];
  if (const model::MonthSeries<Flow>* const yield = model::yield_of(source)) {
    const double most =
        spring_share_for_ram * in_cubic_metres_per_second(yield->at(options_.month));
    limit = std::min(limit.value_or(most), most);
  }
  return limit;
}

void NetworkBuilder::add_ram(std::size_t index) {
  const model::Ram& ram = farm_.rams[index];
  const model::Pipe& drive = farm_.pipes[ram.drive];
  const double level_m = ram_level_m(ram);
  PipeEdges& driving = network_->pipes[ram.drive];
  start_flow_m3_s_ = start_velocity_m_s * in_square_metres(bore_area(drive.size.bore));
  RamEdges made;
  made.drive_edge =
      add_free_end(drive, driving.end_node.back(), nodal::outside, level_m, drive.exit_k);
  driving.to_end_edge = made.drive_edge;
  Edge& inlet = network_->problem.edges[made.drive_edge];
  if (const std::optional<double> limit = drive_limit_m3_s(ram)) {
    inlet.kind = EdgeKind::CappedDischarge;
    inlet.limit_m3_s = *limit;
    inlet.start_flow_m3_s = *limit;
    inlet.closed = *limit <= 0.0;
  }
  Edge lifted;
  lifted.kind = EdgeKind::Ram;
  // At a tee whatever meets there stands on the delivery's side, open to the air or not.
  const std::size_t outlet = farm_.pipes[ram.delivery].from;
  lifted.down = model::is_tee(farm_.places[outlet])
                    ? network_->places[outlet].node
                    : network_->pipes[ram.delivery].start_node.front();
  lifted.driver = made.drive_edge;
  lifted.level_m = level_m;
  const PlaceNode& source = network_->places[drive.from];
  const std::optional<double> given_m = held_surface_m(drive.from);
  if (given_m) {
    lifted.supply_level_m = *given_m;
  } else {
    lifted.supply = source.node;
  }
  network_->ram_efficiencies.push_back(ram.efficiency);
  FarmNetwork::LawOfEdge law;
  law.lifter = index;
  made.delivery_edge = add_edge(lifted, law);
  network_->rams.push_back(made);
}

}  // namespace leat::solver
