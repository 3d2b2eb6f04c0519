// Room: one moment of flow, solved and read; nothing is judged.
// One solved network, read back: which heads mean something, what stands at each point of a pipe.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/network/network_of_farm.h"
#include "solver/nodal/newton.h"

namespace leat::solver {

/// A network with its answer.
struct FlowState {
  const model::Farm* farm = nullptr;
  Surroundings surroundings;
  NetworkOptions options;
  std::unique_ptr<FarmNetwork> network;
  nodal::Solution solution;
  std::vector<bool> head_known;  // per node: running or still water joins it to open water
  /// Per node: how high still water would stand there with every end shut (static_heads.h).
  std::vector<std::optional<double>> static_head_m;
  std::vector<bool> air_enters;  // per pipe: its upper end carries air drawn at a spring
  std::vector<bool> air_at;      // per place: a tee that such air reaches

  [[nodiscard]] std::optional<double> head_m(std::size_t node) const;
  [[nodiscard]] double flow_m3_s(std::size_t edge) const;
  [[nodiscard]] double pipe_flow_m3_s(std::size_t pipe) const;
  [[nodiscard]] bool is_running(std::size_t pipe) const;
  /// Whether a summit or vent edge has let go: its two sides stand apart.
  [[nodiscard]] bool is_parted(std::size_t break_edge) const;
  /// Whether a still end is open to the air: an outlet, a float that asks for water, a free pipe
  /// end, a float inlet whose tank is not full. False for `no_index` and for ends under water.
  [[nodiscard]] bool stands_open(std::size_t end_edge) const;
};

/// Which nodes' heads mean something in a solved network: from open water outwards, through pipes
/// that run and through still ones that are open both ways. Reads all of `state` but `head_known`.
[[nodiscard]] std::vector<bool> known_heads(const FlowState& state);

/// Builds and solves the network of a farm. `before` is an answer of the same farm with other tees
/// open or lines broken; the solver then begins there.
[[nodiscard]] FlowState solve_flow(const model::Farm& farm,
                                   const Surroundings& surroundings,
                                   const NetworkOptions& options,
                                   const FlowState* before = nullptr);

/// Finds which heads of a solved state mean something, and where air drawn at springs goes: what
/// `solve_flow` ends with, for states solved in another way.
void read_heads(FlowState& state);

/// Water at one point inside a pipe.
struct PipePoint {
  double at_m = 0.0;
  double along_m = 0.0;
  double elevation_m = 0.0;
  double head_m = 0.0;       // grade line with the velocity head
  double pressure_Pa = 0.0;  // gauge, velocity head taken off
  std::size_t stretch = 0;   // which of the pipe's stretches it is a point of
  bool part_full = false;    // no full water here: `head_m` is what a full pipe would have
};

/// Grade line and pressure along a pipe, at its ends, at every vertex of its path and on both sides
/// of every placed loss; from start to end. Empty where the heads are not known. Reaches that run
/// part full stand at air pressure (at vapour pressure beyond a parted summit).
struct PipeWater {
  std::vector<PipePoint> points;
  double part_full_m = 0.0;
  double air_reach_m = 0.0;  // length from the upper end that runs with air drawn at a spring
};
[[nodiscard]] PipeWater water_along(const FlowState& state, std::size_t pipe);

}  // namespace leat::solver
