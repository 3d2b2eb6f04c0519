// Puts a farm's elements into a network, kind by kind: places (network_places.cpp), pipes
// (network_pipes.cpp), pumps and rams (network_lifters.cpp); what they share is in
// network_builder.cpp. Only network_of_farm.cpp and those files need it.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>

#include "solver/network/farm_stores.h"
#include "solver/network/network_of_farm.h"

namespace leat::solver {

/// A cold solve starts from this usual velocity in every pipe.
inline constexpr double start_velocity_m_s = 0.3;
/// Small linear losses that keep limits from being knife edges: of a surface a box spills over, of
/// a join that costs nothing. A spring's box never stands more than 10 mm above its overflow below
/// 1 m3/s.
inline constexpr double spring_rise_s_m2 = 0.01;
inline constexpr double spill_rise_s_m2 = 1.0;
/// At a summit or regulator this small loss would be the water's own: 1e-6 m at 1 L/s, and still
/// nothing in a textbook's cubic metre a second.
inline constexpr double join_loss_s_m2 = 1e-3;
/// Water falling into a pipe's end from a store stands over it: 3 mm at 0.1 L/s. Without that depth
/// two ends at one level could share the water in any way, and no method would find which.
inline constexpr double intake_depth_s_m2 = 30.0;
/// Water in a float's trough or drunk from a store stands over nothing: 0.1 mm at 0.1 L/s.
inline constexpr double drinking_depth_s_m2 = 1.0;
/// A path that ends this near a tank's rim ends at the rim.
inline constexpr double rim_tolerance_m = 0.05;
/// A ram at a spring is set so that a thousandth runs over: its drive pipe stays full.
inline constexpr double spring_share_for_ram = 0.999;

/// Builds one network; `build` once.
class NetworkBuilder {
 public:
  NetworkBuilder(const model::Farm& farm,
                 const Surroundings& surroundings,
                 const NetworkOptions& options)
      : farm_(farm),
        surroundings_(surroundings),
        options_(options),
        network_(std::make_unique<FarmNetwork>()) {}

  [[nodiscard]] std::unique_ptr<FarmNetwork> build();

 private:
  // Nodes and edges.
  static nodal::Loss loss_of(const FarmNetwork& network, std::size_t edge, double flow_m3_s);
  std::size_t add_node(std::optional<double> fixed_head_m = std::nullopt);
  std::size_t add_edge(nodal::Edge edge, FarmNetwork::LawOfEdge law = {});
  /// The store at a place; none where nothing is stored or the study knows no time.
  [[nodiscard]] const StoreLaw* store_at(std::size_t place) const;
  /// A surface that the study holds where it is; none at a store or a tank that settles.
  [[nodiscard]] std::optional<double> held_surface_m(std::size_t place) const;
  std::size_t add_spill(std::size_t node, double level_m);
  std::size_t add_free_end(const model::Pipe& pipe,
                           std::size_t up,
                           std::size_t down,
                           double level_m,
                           std::optional<double> k);
  std::size_t add_crest(std::size_t up, std::size_t down, double floor_m, double velocity_head);
  std::size_t add_store_end(std::size_t up, std::size_t down, double level_m);

  // Places.
  void add_place(std::size_t index);
  /// A store's node with its brim, and what is taken from it above its bottom. A trough's lies
  /// behind its float, which `add_end` joins to it.
  void add_store(std::size_t index, const StoreLaw& store);
  /// The end of an outlet or trough; needs its pipe's bore, so it comes after the pipes.
  void add_end(std::size_t index);
  void end_at_float(const model::Trough& trough, std::size_t index, nodal::Edge& edge, EndLaw& law);
  [[nodiscard]] bool is_pumped_to(std::size_t place) const;

  // Pipes.
  /// How a pipe's end joins its place.
  struct Join {
    enum class Kind { SameNode, Uncovered, StoreEnd, Rim, FloatInlet, OpenedTee, AtRam };
    Kind kind = Kind::SameNode;
    double level_m = 0.0;
    double shut_level_m = 0.0;
    bool loses_entrance = false;  // water enters from, or leaves into, open water or air
    bool exit_in_edge = false;    // the exit loss stands in the joining edge
  };
  [[nodiscard]] Join join_at_tee(std::size_t place) const;
  [[nodiscard]] Join from_join(const model::Pipe& pipe, std::size_t index) const;
  [[nodiscard]] Join to_join(const model::Pipe& pipe, std::size_t index) const;
  static EndLosses end_losses(const model::Pipe& pipe, const Join& from, const Join& to);
  void add_pipe(std::size_t index);
  std::size_t join_from(const model::Pipe& pipe, const Join& join, PipeEdges& made);
  std::size_t join_to(const model::Pipe& pipe, const Join& join, PipeEdges& made);
  void add_break(PipeEdges& made, const Break& found, std::size_t up, std::size_t down);
  [[nodiscard]] bool is_fed_by_ram(std::size_t pipe) const;

  // Pumps and rams.
  void note_rams();
  void add_pump(const model::Pump& pump);
  /// Level of a ram's waste valve.
  [[nodiscard]] double ram_level_m(const model::Ram& ram) const;
  /// What the ram's valve is set to, where that is said or follows from its spring.
  [[nodiscard]] std::optional<double> drive_limit_m3_s(const model::Ram& ram) const;
  void add_ram(std::size_t index);

  const model::Farm& farm_;
  const Surroundings& surroundings_;
  const NetworkOptions& options_;
  std::unique_ptr<FarmNetwork> network_;
  double start_flow_m3_s_ = 0.0;
  double velocity_head_s2_m5_ = 0.0;
};

}  // namespace leat::solver
