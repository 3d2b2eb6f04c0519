#include <algorithm>

#include "solver/network/network_builder.h"

namespace leat::solver {

using nodal::Edge;
using nodal::EdgeKind;

NetworkBuilder::Join NetworkBuilder::join_at_tee(std::size_t place) const {
  Join join;
  if (options_.opened_tees.contains(place)) {
    join.kind = Join::Kind::OpenedTee;
    join.level_m = in_metres(model::level_of(farm_.places[place], options_.month));
  }
  return join;
}

NetworkBuilder::Join NetworkBuilder::from_join(const model::Pipe& pipe, std::size_t index) const {
  const model::Place& place = farm_.places[pipe.from];
  if (is_fed_by_ram(index) && !model::is_tee(place)) {
    Join join;
    join.kind = Join::Kind::AtRam;
    return join;
  }
  if (model::is_tee(place)) {
    return join_at_tee(pipe.from);
  }
  Join join;
  join.loses_entrance = true;
  join.level_m = in_metres(model::from_end_level(farm_, pipe, options_.month));
  if (model::is_spring(place)) {
    return join;
  }
  if (const StoreLaw* store = store_at(pipe.from)) {
    join.level_m = mouth_in_store_m(farm_, pipe, *store);
  }
  const std::optional<double> surface = held_surface_m(pipe.from);
  if (!surface) {
    join.kind = Join::Kind::StoreEnd;
  } else if (join.level_m > *surface + 1e-9) {
    join.kind = Join::Kind::Uncovered;
    join.exit_in_edge = true;
  }
  return join;
}

NetworkBuilder::Join NetworkBuilder::to_join(const model::Pipe& pipe, std::size_t index) const {
  const model::Place& place = farm_.places[pipe.to];
  if (network_->ram_driven_by[index] != no_index) {
    Join join;
    join.kind = Join::Kind::AtRam;
    return join;
  }
  if (model::is_tee(place)) {
    return join_at_tee(pipe.to);
  }
  Join join;
  if (model::takes_from_pipes(place)) {
    return join;  // the exit loss is the place's own edge
  }
  join.loses_entrance = true;
  join.level_m = in_metres(model::to_end_level(farm_, pipe, options_.month));
  const std::optional<double> surface = held_surface_m(pipe.to);
  if (model::is_tank(place)) {
    const double rim_m = in_metres(*model::brim_of(place));
    const std::optional<Elevation> float_level = model::float_level_of(place);
    // With every float wide open a tank's hangs open as well.
    if (float_level && options_.load_case != LoadCase::Wide &&
        !options_.open_floats.contains(pipe.to)) {
      join.kind = Join::Kind::FloatInlet;
      join.shut_level_m = in_metres(*float_level);
      join.exit_in_edge = true;
      return join;
    }
    const bool at_rim = join.level_m > rim_m - rim_tolerance_m &&
                        pipe.enters.value_or(model::TankEntry::Rim) == model::TankEntry::Rim;
    if (at_rim) {
      join.kind = Join::Kind::Rim;
      join.exit_in_edge = true;
      return join;
    }
    if (store_at(pipe.to) != nullptr && !pipe.ends && pipe.path.empty()) {
      join.level_m = in_metres(
          model::level_of(place, options_.month));  // through the bottom, whatever the depth is now
    }
  }
  if (!surface) {
    join.kind = Join::Kind::StoreEnd;
    if (const StoreLaw* store = store_at(pipe.to)) {
      join.level_m = std::max(join.level_m, store->bottom_m);
    }
    return join;
  }
  if (join.level_m > *surface + 1e-9) {
    join.kind = Join::Kind::Uncovered;
    join.exit_in_edge = true;
  }
  return join;
}

EndLosses NetworkBuilder::end_losses(const model::Pipe& pipe, const Join& from, const Join& to) {
  EndLosses losses;
  if (from.loses_entrance) {
    losses.from_forward_k = pipe.entrance_k.value_or(entrance_k);
    losses.from_backward_k = from.exit_in_edge ? 0.0 : pipe.entrance_k.value_or(exit_k);
  } else if (pipe.entrance_k) {
    losses.from_forward_k = *pipe.entrance_k;
    losses.from_backward_k = *pipe.entrance_k;
  }
  if (to.loses_entrance) {
    losses.to_forward_k = to.exit_in_edge ? 0.0 : pipe.exit_k.value_or(exit_k);
    losses.to_backward_k = pipe.exit_k.value_or(entrance_k);
  }
  return losses;
}

void NetworkBuilder::add_pipe(std::size_t index) {
  const model::Pipe& pipe = farm_.pipes[index];
  PipeEdges& made = network_->pipes[index];
  const Join from = from_join(pipe, index);
  const Join to = to_join(pipe, index);
  EndLosses losses = end_losses(pipe, from, to);
  const bool tee_exit =
      model::is_tee(farm_.places[pipe.to]) && pipe.exit_k && to.kind != Join::Kind::AtRam;
  if (tee_exit) {
    losses.to_forward_k = *pipe.exit_k;
    losses.to_backward_k = *pipe.exit_k;
  }
  made.cut = cut_pipe(farm_, pipe, options_.month, surroundings_.water, losses);
  const double area_m2 = in_square_metres(bore_area(pipe.size.bore));
  start_flow_m3_s_ = start_velocity_m_s * area_m2;
  velocity_head_s2_m5_ = 1.0 / (2.0 * gravity_m_s2 * area_m2 * area_m2);

  std::size_t node = join_from(pipe, from, made);
  for (std::size_t i = 0; i < made.cut.stretches.size(); ++i) {
    const bool is_last = i + 1 == made.cut.stretches.size();
    const std::size_t end = is_last ? join_to(pipe, to, made) : add_node();
    Edge edge;
    edge.kind = made.cut.stretches[i].one_way ? EdgeKind::OneWay : EdgeKind::Link;
    edge.opening_head_m = made.cut.stretches[i].opening_head_m;
    edge.up = node;
    edge.down = end;
    edge.has_loss = true;
    edge.start_flow_m3_s = start_flow_m3_s_;
    edge.closed = i == 0 && options_.broken_pipes.contains(index);
    made.start_node.push_back(node);
    made.end_node.push_back(end);
    made.stretch_edge.push_back(add_edge(edge, {index, i, {}}));
    if (!is_last) {
      node = add_node();
      add_break(made, made.cut.breaks[i], end, node);
    }
  }
}

std::size_t NetworkBuilder::join_from(const model::Pipe& pipe, const Join& join, PipeEdges& made) {
  const std::size_t place_node = network_->places[pipe.from].node;
  if (join.kind == Join::Kind::SameNode) {
    return place_node;
  }
  const std::size_t node = add_node();
  if (join.kind == Join::Kind::AtRam) {
    return node;
  }
  if (join.kind == Join::Kind::Uncovered) {
    made.from_end_edge = add_free_end(pipe, node, nodal::outside, join.level_m, pipe.entrance_k);
  } else {
    made.from_end_edge = add_store_end(place_node, node, join.level_m);
  }
  return node;
}

std::size_t NetworkBuilder::join_to(const model::Pipe& pipe, const Join& join, PipeEdges& made) {
  const std::size_t place_node = network_->places[pipe.to].node;
  switch (join.kind) {
    case Join::Kind::SameNode:
      return place_node;
    case Join::Kind::AtRam:
      return add_node();
    case Join::Kind::StoreEnd:
    case Join::Kind::OpenedTee: {
      const std::size_t node = add_node();
      made.to_end_edge = add_store_end(node, place_node, join.level_m);
      return node;
    }
    case Join::Kind::Uncovered: {
      const std::size_t node = add_node();
      made.to_end_edge = add_free_end(pipe, node, nodal::outside, join.level_m, pipe.exit_k);
      return node;
    }
    case Join::Kind::Rim: {
      const std::size_t node = add_node();
      made.to_end_edge = add_free_end(pipe, node, place_node, join.level_m, pipe.exit_k);
      return node;
    }
    case Join::Kind::FloatInlet: {
      const std::size_t node = add_node();
      made.to_end_edge = add_free_end(pipe, node, place_node, join.level_m, pipe.exit_k);
      Edge& edge = network_->problem.edges[made.to_end_edge];
      edge.kind = EdgeKind::HeldInlet;
      edge.shut_level_m = join.shut_level_m;
      return node;
    }
  }
  return place_node;
}

void NetworkBuilder::add_break(PipeEdges& made,
                               const Break& found,
                               std::size_t up,
                               std::size_t down) {
  std::size_t spill = no_index;
  switch (found.kind) {
    case Break::Kind::Summit: {
      const double floor_m = found.point.elevation_m + surroundings_.head_of_pressure_m(
                                                           surroundings_.water.vapour_pressure_Pa -
                                                           surroundings_.air_pressure_Pa);
      made.break_edge.push_back(add_crest(up, down, floor_m, velocity_head_s2_m5_));
      break;
    }
    case Break::Kind::Vent:
      made.break_edge.push_back(add_crest(up, down, found.point.elevation_m, velocity_head_s2_m5_));
      if (found.vent_top_m) {
        Edge edge;
        edge.kind = EdgeKind::Discharge;
        edge.up = up;
        edge.level_m = *found.vent_top_m;
        edge.linear_loss_s_m2 = spill_rise_s_m2;
        spill = add_edge(edge);
      }
      break;
    case Break::Kind::Regulator: {
      Edge edge;
      edge.kind = EdgeKind::HeadHold;
      edge.up = up;
      edge.down = down;
      edge.level_m = found.held_head_m;
      edge.linear_loss_s_m2 = join_loss_s_m2;
      edge.start_flow_m3_s = start_flow_m3_s_;
      made.break_edge.push_back(add_edge(edge));
      break;
    }
    case Break::Kind::ShutValve: {
      Edge edge;
      edge.up = up;
      edge.down = down;
      edge.closed = true;
      made.break_edge.push_back(add_edge(edge));
      break;
    }
  }
  made.vent_spill.push_back(spill);
}

bool NetworkBuilder::is_fed_by_ram(std::size_t pipe) const {
  return std::any_of(farm_.rams.begin(), farm_.rams.end(), [&](const model::Ram& ram) {
    return ram.delivery == pipe;
  });
}

}  // namespace leat::solver
