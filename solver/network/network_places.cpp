#include <algorithm>

#include "model/catalogue/need.h"
#include "solver/network/network_builder.h"

namespace leat::solver {

using nodal::Edge;
using nodal::EdgeKind;

void NetworkBuilder::add_place(std::size_t index) {
  const model::Place& place = farm_.places[index];
  PlaceNode& made = network_->places[index];
  if (const model::MonthSeries<Flow>* const yield = model::yield_of(place)) {
    made.node = add_node();
    Edge edge;
    edge.kind = EdgeKind::LimitedSupply;
    edge.down = made.node;
    edge.level_m = in_metres(model::level_of(place, options_.month));
    edge.limit_m3_s = in_cubic_metres_per_second(yield->at(options_.month));
    edge.linear_loss_s_m2 = spring_rise_s_m2;
    edge.start_flow_m3_s = edge.limit_m3_s;
    made.supply_edge = add_edge(edge);
    return;
  }
  if (const StoreLaw* store = store_at(index)) {
    add_store(index, *store);
    return;
  }
  // Over a season a tank that nothing tells the volume of passes on what comes.
  const bool passes_on = options_.stores != nullptr && model::is_tank(place);
  made.node = add_node(passes_on ? std::nullopt : surface_m(place, options_.month));
  if (model::settles(place) || passes_on) {
    made.spill_edge = add_spill(made.node, in_metres(*model::brim_of(place)));
  }
}

void NetworkBuilder::add_store(std::size_t index, const StoreLaw& store) {
  PlaceNode& made = network_->places[index];
  made.store_node = add_node();
  network_->problem.nodes[made.store_node].has_store = true;
  network_->problem.nodes[made.store_node].volume_before_m3 = store.at(store.start_m).volume_m3;
  network_->store_of_node.resize(made.store_node + 1, no_index);
  network_->store_of_node[made.store_node] = options_.stores->of_place(index);
  const bool behind_float = model::is_trough(farm_.places[index]);
  made.node = behind_float ? add_node() : made.store_node;
  made.spill_edge = add_spill(made.store_node, store.brim_m);
  if (!model::is_tank(farm_.places[index])) {
    Edge drunk;
    drunk.kind = EdgeKind::CappedDischarge;
    drunk.up = made.store_node;
    drunk.level_m = store.bottom_m;
    drunk.linear_loss_s_m2 = drinking_depth_s_m2;
    made.drink_edge = add_edge(drunk);
  }
}

void NetworkBuilder::add_end(std::size_t index) {
  const model::Place& place = farm_.places[index];
  if (!model::takes_from_pipes(place)) {
    return;
  }
  const model::Pipe* feeding = nullptr;
  for (const std::size_t pipe : network_->pipes_of.at(index)) {
    if (feeding == nullptr && farm_.pipes[pipe].to == index) {
      feeding = &farm_.pipes[pipe];
    }
  }
  Edge edge;
  edge.kind = EdgeKind::Discharge;
  edge.up = network_->places[index].node;
  edge.has_loss = true;
  EndLaw law;
  if (feeding != nullptr) {
    law.kind = EndLaw::Kind::VelocityHead;
    law.bore_m = in_metres(feeding->size.bore);
    law.k = feeding->exit_k.value_or(exit_k);
    edge.start_flow_m3_s = start_velocity_m_s * in_square_metres(bore_area(metres(law.bore_m)));
  } else {
    edge.closed = !is_pumped_to(index);
  }
  edge.level_m = in_metres(model::level_of(place, options_.month));
  std::visit(
      Overload{
          [&](const model::Outlet& outlet) {
            if (outlet.opening) {
              law.kind = EndLaw::Kind::Orifice;
              law.orifice =
                  hydraulics::orifice(in_metres(*outlet.opening), outlet.discharge_coefficient);
            }
          },
          [&](const model::Trough& trough) { end_at_float(trough, index, edge, law); },
          [](const model::
                 AnyOf<model::Spring, model::Creek, model::Pond, model::Tank, model::Tee> auto&) {
          }},
      place.data);
  network_->places[index].discharge_edge = add_edge(edge, {no_index, 0, law});
}

void NetworkBuilder::end_at_float(const model::Trough& trough,
                                  std::size_t index,
                                  Edge& edge,
                                  EndLaw& law) {
  if (trough.seat) {
    law.kind = EndLaw::Kind::Orifice;
    law.orifice = hydraulics::orifice(in_metres(*trough.seat), trough.discharge_coefficient);
  } else if (trough.passes) {
    law.kind = EndLaw::Kind::Orifice;
    law.orifice = hydraulics::orifice_passing(in_cubic_metres_per_second(trough.passes->first),
                                              in_pascals(trough.passes->second));
  }
  const bool hangs_open = index == options_.broken_trough || options_.open_floats.contains(index);
  if (const StoreLaw* store = store_at(index)) {
    edge.kind = EdgeKind::HeldInlet;
    edge.down = network_->places[index].store_node;
    edge.linear_loss_s_m2 = drinking_depth_s_m2;
    // A float that hangs open lets water in until the trough runs over, and then goes on.
    edge.shut_level_m = hangs_open ? store->brim_m + trough_depth_m : in_metres(trough.float_level);
    return;
  }
  if (options_.load_case != LoadCase::Needs || hangs_open) {
    return;
  }
  const std::optional<Flow> need = model::need_rate(trough, farm_.air, options_.month);
  if (need) {
    edge.kind = EdgeKind::CappedDischarge;
    edge.limit_m3_s = in_cubic_metres_per_second(*need);
    edge.start_flow_m3_s = edge.limit_m3_s;
    // Over a season the same float asks for water again in the morning.
    edge.closed = edge.closed || (edge.limit_m3_s <= 0.0 && options_.stores == nullptr);
  }
}

bool NetworkBuilder::is_pumped_to(std::size_t place) const {
  return std::any_of(farm_.pumps.begin(), farm_.pumps.end(), [&](const model::Pump& pump) {
    return pump.to == place;
  });
}

}  // namespace leat::solver
