// Room: a farm becomes nodes and edges, and they lead back to it.
// From a farm to numbered nodes and edges, with the way back: which node is a place, which edges
// are a pipe.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <set>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/hydraulics/orifice.h"
#include "solver/hydraulics/water.h"
#include "solver/hydrology/pump.h"
#include "solver/network/farm_stores.h"
#include "solver/network/pipe_reaches.h"
#include "solver/network/pipes_by_place.h"
#include "solver/nodal/problem.h"

namespace leat::solver {

inline constexpr std::size_t no_index = static_cast<std::size_t>(-1);

/// Air and water at the farm in the month solved for.
struct Surroundings {
  hydraulics::Water water;
  double air_pressure_Pa = 0.0;

  /// Height of water that a pressure carries [m].
  [[nodiscard]] double head_of_pressure_m(double pressure_Pa) const {
    return pressure_Pa / (water.density_kg_m3 * gravity_m_s2);
  }
  [[nodiscard]] double pressure_of_head_Pa(double head_m) const {
    return head_m * water.density_kg_m3 * gravity_m_s2;
  }
};

/// What is asked of the network beside the farm itself. Tees and pipes are indexes into the farm.
struct NetworkOptions {
  LoadCase load_case = LoadCase::Needs;
  std::optional<model::Month> month;
  std::size_t broken_trough = no_index;  // place whose float hangs open
  std::set<std::size_t> opened_tees;     // tees that draw air: boxes open to it
  std::set<std::size_t> broken_pipes;    // siphons that have broken: shut
  std::set<std::size_t> open_floats;     // places whose float hangs open, beside `broken_trough`
  /// Over a season these places are stores with a level of their own (must outlive the network);
  /// a moment of steady flow has none.
  const FarmStores* stores = nullptr;
  std::set<std::size_t> stopped_pumps;  // pumps of the farm that do not run
};

/// How water leaves the network at a place or a free pipe end.
struct EndLaw {
  enum class Kind { None, VelocityHead, Orifice };
  Kind kind = Kind::None;
  double bore_m = 0.0;
  double k = 0.0;
  hydraulics::OrificeLaw orifice;
};

/// The nodes and edges one pipe was made into, in the order of its course.
struct PipeEdges {
  PipeStretches cut;
  std::vector<std::size_t> stretch_edge;  // one a stretch
  std::vector<std::size_t> start_node;    // node at each stretch's start ...
  std::vector<std::size_t> end_node;      // ... and end
  std::vector<std::size_t> break_edge;    // one a break
  std::vector<std::size_t> vent_spill;    // edge one a break, or no_index
  std::size_t from_end_edge = no_index;   // edge that joins the place to the pipe, where needed
  std::size_t to_end_edge = no_index;
};

/// What a place was made into.
struct PlaceNode {
  std::size_t node = no_index;
  std::size_t supply_edge = no_index;     // a spring's yield
  std::size_t discharge_edge = no_index;  // an outlet's or trough's end
  std::size_t spill_edge = no_index;      // a store's or settling tank's brim
  std::size_t store_node = no_index;      // of a store: `node` itself, or what lies behind a float
  std::size_t drink_edge = no_index;      // what is drunk, or lost to sun and ground, from a store
};

/// Where a pump or a ram stands among the edges.
struct PumpEdge {
  std::size_t edge = no_index;       // closed while the pump stands still
  std::size_t from_edge = no_index;  // joins it to a tank that settles or an opened tee
};
struct RamEdges {
  std::size_t drive_edge = no_index;     // the drive pipe's end: all that the ram takes
  std::size_t delivery_edge = no_index;  // what it lifts; the rest runs to waste
};

/// The farm as numbers. Not copyable: `problem.loss` looks into this object.
struct FarmNetwork {
  FarmNetwork() = default;
  FarmNetwork(const FarmNetwork&) = delete;
  FarmNetwork& operator=(const FarmNetwork&) = delete;

  nodal::Problem problem;
  std::vector<PlaceNode> places;           // by place of the farm
  std::vector<PipeEdges> pipes;            // by pipe of the farm
  PipesByPlace pipes_of;                   // which pipes meet at a place of the farm
  std::vector<PumpEdge> pumps;             // by pump of the farm
  std::vector<RamEdges> rams;              // by ram of the farm
  std::vector<std::size_t> ram_driven_by;  // by pipe of the farm: the ram it drives, or no_index
  /// Law of each edge: a stretch (pipe, stretch) or an end.
  struct LawOfEdge {
    std::size_t pipe = no_index;
    std::size_t stretch = 0;
    EndLaw end;
    std::size_t lifter = no_index;  // of `pump_curves`, or of the farm's rams
  };
  std::vector<LawOfEdge> laws;
  std::vector<std::size_t> store_of_node;         // index into the stores' laws; as long as needed
  std::vector<hydrology::PumpCurve> pump_curves;  // by pump of the farm
  std::vector<std::optional<double>> ram_efficiencies;  // by ram of the farm
};

/// Air and water of a farm in a month.
[[nodiscard]] Surroundings surroundings_of(const model::Farm& farm,
                                           std::optional<model::Month> month);

/// Builds the network of a farm whose file has been checked.
[[nodiscard]] std::unique_ptr<FarmNetwork> network_of(const model::Farm& farm,
                                                      const Surroundings& surroundings,
                                                      const NetworkOptions& options);

/// Surface of a place of open water in a month, none for a tank that settles or a place of another
/// kind. A spring's is its overflow.
[[nodiscard]] std::optional<double> surface_m(const model::Place& place,
                                              std::optional<model::Month> month);

/// Level at which a pipe takes its water from a store. A mouth that nothing tells the level of
/// counts as at the surface; over a season it goes down with the water, as a hanging hose does, to
/// the bottom.
[[nodiscard]] double mouth_in_store_m(const model::Farm& farm,
                                      const model::Pipe& pipe,
                                      const StoreLaw& store);

}  // namespace leat::solver
