#include "solver/network_of_farm.h"

#include <algorithm>
#include <cmath>

#include "model/herd_catalogue.h"
#include "solver/hydraulics/air_pressure.h"
#include "solver/hydrology/ram.h"

namespace leat::solver {

namespace {

using nodal::Edge;
using nodal::EdgeKind;

/// A cold solve starts from this usual velocity in every pipe.
constexpr double start_velocity_m_s = 0.3;
/// Small linear losses that keep limits from being knife edges: of a surface a box spills over, of
/// a join that costs nothing. A spring's box never stands more than 10 mm above its overflow below
/// 1 m3/s.
constexpr double spring_rise_s_m2 = 0.01;
constexpr double spill_rise_s_m2 = 1.0;
/// At a summit or regulator this small loss would be the water's own: 1e-6 m at 1 L/s, and still
/// nothing in a textbook's cubic metre a second.
constexpr double join_loss_s_m2 = 1e-3;
/// Water falling into a pipe's end from a store stands over it: 3 mm at 0.1 L/s. Without that depth
/// two ends at one level could share the water in any way, and no method would find which.
constexpr double intake_depth_s_m2 = 30.0;
/// Water in a float's trough or drunk from a store stands over nothing: 0.1 mm at 0.1 L/s.
constexpr double drinking_depth_s_m2 = 1.0;
/// A path that ends this near a tank's rim ends at the rim.
constexpr double rim_tolerance_m = 0.05;
/// A ram at a spring is set so that a thousandth runs over: its drive pipe stays full.
constexpr double spring_share_for_ram = 0.999;

class NetworkBuilder {
 public:
  NetworkBuilder(const model::Farm& farm,
                 const Surroundings& surroundings,
                 const NetworkOptions& options)
      : farm_(farm),
        surroundings_(surroundings),
        options_(options),
        network_(std::make_unique<FarmNetwork>()) {}

  std::unique_ptr<FarmNetwork> build() {
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

 private:
  static nodal::Loss loss_of(const FarmNetwork& network, std::size_t edge, double flow_m3_s) {
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

  std::size_t add_node(std::optional<double> fixed_head_m = std::nullopt) {
    network_->problem.nodes.push_back({fixed_head_m, 0.0});
    return network_->problem.nodes.size() - 1;
  }

  std::size_t add_edge(Edge edge, FarmNetwork::LawOfEdge law = {}) {
    network_->problem.edges.push_back(edge);
    network_->laws.push_back(law);
    return network_->problem.edges.size() - 1;
  }

  void add_place(std::size_t index) {
    const model::Place& place = farm_.places[index];
    PlaceNode& made = network_->places[index];
    if (const auto* spring = std::get_if<model::Spring>(&place.data)) {
      made.node = add_node();
      Edge edge;
      edge.kind = EdgeKind::LimitedSupply;
      edge.down = made.node;
      edge.level_m = in_metres(spring->overflow);
      edge.limit_m3_s = in_cubic_metres_per_second(spring->yield.at(options_.month));
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
    const auto* tank = std::get_if<model::Tank>(&place.data);
    const bool passes_on = options_.stores != nullptr && tank != nullptr;
    made.node = add_node(passes_on ? std::nullopt : surface_m(place, options_.month));
    if (tank != nullptr && (tank->settles || passes_on)) {
      made.spill_edge = add_spill(made.node, in_metres(tank->floor + tank->full));
    }
  }

  /// The store at a place; none where nothing is stored or the study knows no time.
  [[nodiscard]] const StoreLaw* store_at(std::size_t place) const {
    return options_.stores == nullptr ? nullptr : options_.stores->find(place);
  }

  /// A surface that the study holds where it is; none at a store or a tank that settles.
  [[nodiscard]] std::optional<double> held_surface_m(std::size_t place) const {
    const bool floats = options_.stores != nullptr &&
                        (store_at(place) != nullptr ||
                         std::holds_alternative<model::Tank>(farm_.places[place].data));
    return floats ? std::nullopt : surface_m(farm_.places[place], options_.month);
  }

  std::size_t add_spill(std::size_t node, double level_m) {
    Edge edge;
    edge.kind = EdgeKind::Discharge;
    edge.up = node;
    edge.level_m = level_m;
    edge.linear_loss_s_m2 = spill_rise_s_m2;
    return add_edge(edge);
  }

  /// A store's node with its brim, and what is taken from it above its bottom. A trough's lies
  /// behind its float, which `add_end` joins to it.
  void add_store(std::size_t index, const StoreLaw& store) {
    PlaceNode& made = network_->places[index];
    made.store_node = add_node();
    network_->problem.nodes[made.store_node].has_store = true;
    network_->problem.nodes[made.store_node].volume_before_m3 = store.at(store.start_m).volume_m3;
    network_->store_of_node.resize(made.store_node + 1, no_index);
    network_->store_of_node[made.store_node] = options_.stores->of_place(index);
    const bool behind_float = std::holds_alternative<model::Trough>(farm_.places[index].data);
    made.node = behind_float ? add_node() : made.store_node;
    made.spill_edge = add_spill(made.store_node, store.brim_m);
    if (!std::holds_alternative<model::Tank>(farm_.places[index].data)) {
      Edge drunk;
      drunk.kind = EdgeKind::CappedDischarge;
      drunk.up = made.store_node;
      drunk.level_m = store.bottom_m;
      drunk.linear_loss_s_m2 = drinking_depth_s_m2;
      made.drink_edge = add_edge(drunk);
    }
  }

  /// The end of an outlet or trough; needs its pipe's bore, so it comes after the pipes.
  void add_end(std::size_t index) {
    const model::Place& place = farm_.places[index];
    const auto* trough = std::get_if<model::Trough>(&place.data);
    const auto* outlet = std::get_if<model::Outlet>(&place.data);
    if (trough == nullptr && outlet == nullptr) {
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
    if (outlet != nullptr) {
      edge.level_m = in_metres(outlet->level);
      if (outlet->opening) {
        law.kind = EndLaw::Kind::Orifice;
        law.orifice =
            hydraulics::orifice(in_metres(*outlet->opening), outlet->discharge_coefficient);
      }
    } else {
      end_at_float(*trough, index, edge, law);
    }
    network_->places[index].discharge_edge = add_edge(edge, {no_index, 0, law});
  }

  void end_at_float(const model::Trough& trough, std::size_t index, Edge& edge, EndLaw& law) {
    edge.level_m = in_metres(trough.float_level);
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
      edge.shut_level_m =
          hangs_open ? store->brim_m + trough_depth_m : in_metres(trough.float_level);
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

  /// How a pipe's end joins its place.
  struct Join {
    enum class Kind { SameNode, Uncovered, StoreEnd, Rim, FloatInlet, OpenedTee, AtRam };
    Kind kind = Kind::SameNode;
    double level_m = 0.0;
    double shut_level_m = 0.0;
    bool loses_entrance = false;  // water enters from, or leaves into, open water or air
    bool exit_in_edge = false;    // the exit loss stands in the joining edge
  };

  Join join_at_tee(std::size_t place) const {
    Join join;
    if (options_.opened_tees.contains(place)) {
      join.kind = Join::Kind::OpenedTee;
      join.level_m = in_metres(std::get<model::Tee>(farm_.places[place].data).elevation);
    }
    return join;
  }

  Join from_join(const model::Pipe& pipe, std::size_t index) const {
    const model::Place& place = farm_.places[pipe.from];
    if (is_fed_by_ram(index) && !std::holds_alternative<model::Tee>(place.data)) {
      Join join;
      join.kind = Join::Kind::AtRam;
      return join;
    }
    if (std::holds_alternative<model::Tee>(place.data)) {
      return join_at_tee(pipe.from);
    }
    Join join;
    join.loses_entrance = true;
    join.level_m = in_metres(model::from_end_level(farm_, pipe, options_.month));
    if (std::holds_alternative<model::Spring>(place.data)) {
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

  Join to_join(const model::Pipe& pipe, std::size_t index) const {
    const model::Place& place = farm_.places[pipe.to];
    if (network_->ram_driven_by[index] != no_index) {
      Join join;
      join.kind = Join::Kind::AtRam;
      return join;
    }
    if (std::holds_alternative<model::Tee>(place.data)) {
      return join_at_tee(pipe.to);
    }
    Join join;
    if (std::holds_alternative<model::Trough>(place.data) ||
        std::holds_alternative<model::Outlet>(place.data)) {
      return join;  // the exit loss is the place's own edge
    }
    join.loses_entrance = true;
    join.level_m = in_metres(model::to_end_level(farm_, pipe, options_.month));
    const std::optional<double> surface = held_surface_m(pipe.to);
    if (const auto* tank = std::get_if<model::Tank>(&place.data)) {
      const double rim_m = in_metres(tank->floor + tank->full);
      // With every float wide open a tank's hangs open as well.
      if (tank->float_inlet && options_.load_case != LoadCase::Wide &&
          !options_.open_floats.contains(pipe.to)) {
        join.kind = Join::Kind::FloatInlet;
        join.shut_level_m = in_metres(tank->floor + *tank->float_inlet);
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
        join.level_m = in_metres(tank->floor);  // through the bottom, whatever the depth is now
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

  static EndLosses end_losses(const model::Pipe& pipe, const Join& from, const Join& to) {
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

  void add_pipe(std::size_t index) {
    const model::Pipe& pipe = farm_.pipes[index];
    PipeEdges& made = network_->pipes[index];
    const Join from = from_join(pipe, index);
    const Join to = to_join(pipe, index);
    EndLosses losses = end_losses(pipe, from, to);
    const bool tee_exit = std::holds_alternative<model::Tee>(farm_.places[pipe.to].data) &&
                          pipe.exit_k && to.kind != Join::Kind::AtRam;
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

  std::size_t join_from(const model::Pipe& pipe, const Join& join, PipeEdges& made) {
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

  std::size_t join_to(const model::Pipe& pipe, const Join& join, PipeEdges& made) {
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

  std::size_t add_free_end(const model::Pipe& pipe,
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

  std::size_t add_crest(std::size_t up, std::size_t down, double floor_m, double velocity_head) {
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

  std::size_t add_store_end(std::size_t up, std::size_t down, double level_m) {
    const std::size_t edge = add_crest(up, down, level_m, 0.0);
    network_->problem.edges[edge].floor_loss_s_m2 = intake_depth_s_m2;
    return edge;
  }

  void add_break(PipeEdges& made, const Break& found, std::size_t up, std::size_t down) {
    std::size_t spill = no_index;
    switch (found.kind) {
      case Break::Kind::Summit: {
        const double floor_m =
            found.point.elevation_m +
            surroundings_.head_of_pressure_m(surroundings_.water.vapour_pressure_Pa -
                                             surroundings_.air_pressure_Pa);
        made.break_edge.push_back(add_crest(up, down, floor_m, velocity_head_s2_m5_));
        break;
      }
      case Break::Kind::Vent:
        made.break_edge.push_back(
            add_crest(up, down, found.point.elevation_m, velocity_head_s2_m5_));
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

  void note_rams() {
    network_->ram_driven_by.assign(farm_.pipes.size(), no_index);
    for (std::size_t i = 0; i < farm_.rams.size(); ++i) {
      network_->ram_driven_by[farm_.rams[i].drive] = i;
    }
  }

  [[nodiscard]] bool is_fed_by_ram(std::size_t pipe) const {
    return std::any_of(farm_.rams.begin(), farm_.rams.end(), [&](const model::Ram& ram) {
      return ram.delivery == pipe;
    });
  }

  [[nodiscard]] bool is_pumped_to(std::size_t place) const {
    return std::any_of(farm_.pumps.begin(), farm_.pumps.end(), [&](const model::Pump& pump) {
      return pump.to == place;
    });
  }

  void add_pump(const model::Pump& pump) {
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
    const auto* tank = std::get_if<model::Tank>(&from.data);
    const bool from_air = options_.opened_tees.contains(pump.from);
    const StoreLaw* store = store_at(pump.from);
    if (from_air || store != nullptr || (tank != nullptr && tank->settles)) {
      // It draws what stands over its mouth there and no more.
      double level_m = store != nullptr ? store->bottom_m : 0.0;
      if (tank != nullptr) {
        level_m = in_metres(tank->intake.value_or(tank->floor));
      } else if (const auto* tee = std::get_if<model::Tee>(&from.data)) {
        level_m = in_metres(tee->elevation);
      } else if (const auto* pond = std::get_if<model::Pond>(&from.data)) {
        level_m = std::max(level_m, in_metres(pond->intake.value_or(elevation_metres(level_m))));
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

  /// Level of a ram's waste valve.
  [[nodiscard]] double ram_level_m(const model::Ram& ram) const {
    const model::Pipe& drive = farm_.pipes[ram.drive];
    return in_metres(ram.level.value_or(model::to_end_level(farm_, drive, options_.month)));
  }

  /// What the ram's valve is set to, where that is said or follows from its spring.
  [[nodiscard]] std::optional<double> drive_limit_m3_s(const model::Ram& ram) const {
    std::optional<double> limit;
    if (ram.takes) {
      limit = in_cubic_metres_per_second(*ram.takes);
    }
    const model::Place& source = farm_.places[farm_.pipes[ram.drive].from];
    if (const auto* spring = std::get_if<model::Spring>(&source.data)) {
      const double most =
          spring_share_for_ram * in_cubic_metres_per_second(spring->yield.at(options_.month));
      limit = std::min(limit.value_or(most), most);
    }
    return limit;
  }

  void add_ram(std::size_t index) {
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
    lifted.down = std::holds_alternative<model::Tee>(farm_.places[outlet].data)
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

  const model::Farm& farm_;
  const Surroundings& surroundings_;
  const NetworkOptions& options_;
  std::unique_ptr<FarmNetwork> network_;
  double start_flow_m3_s_ = 0.0;
  double velocity_head_s2_m5_ = 0.0;
};

}  // namespace

Surroundings surroundings_of(const model::Farm& farm, std::optional<model::Month> month) {
  Surroundings surroundings;
  surroundings.water = hydraulics::water_at(farm.site.water.at(month));
  surroundings.air_pressure_Pa =
      in_pascals(farm.site.air_pressure.value_or(hydraulics::air_pressure_at(farm.site.altitude)));
  return surroundings;
}

std::optional<double> surface_m(const model::Place& place, std::optional<model::Month> month) {
  if (const auto* spring = std::get_if<model::Spring>(&place.data)) {
    return in_metres(spring->overflow);
  }
  if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
    return in_metres(creek->surface.at(month));
  }
  if (const auto* pond = std::get_if<model::Pond>(&place.data)) {
    return in_metres(pond->surface.at(month));
  }
  const auto* tank = std::get_if<model::Tank>(&place.data);
  if (tank != nullptr && !tank->settles) {
    return in_metres(tank->floor + tank->depth);
  }
  return std::nullopt;
}

double mouth_in_store_m(const model::Farm& farm, const model::Pipe& pipe, const StoreLaw& store) {
  const model::PlaceData& data = farm.places[pipe.from].data;
  const auto* pond = std::get_if<model::Pond>(&data);
  const auto* tank = std::get_if<model::Tank>(&data);
  const bool has_intake = (pond != nullptr && pond->intake) || (tank != nullptr && tank->intake);
  if (pipe.path.empty() && !has_intake) {
    return store.bottom_m;
  }
  return std::max(store.bottom_m, in_metres(model::from_end_level(farm, pipe, std::nullopt)));
}

std::unique_ptr<FarmNetwork> network_of(const model::Farm& farm,
                                        const Surroundings& surroundings,
                                        const NetworkOptions& options) {
  return NetworkBuilder(farm, surroundings, options).build();
}

}  // namespace leat::solver
