// Room: numbers only: heads and flows by Newton's method; knows no farm.
//
// A network as numbers: nodes that carry a head, edges that carry a flow, one equation an edge.
#pragma once

#include <cstddef>
#include <functional>
#include <limits>
#include <optional>
#include <vector>

namespace leat::nodal {

/// The far side of an edge that leads out of the network (into air) or into it (a supply).
inline constexpr std::size_t outside = std::numeric_limits<std::size_t>::max();

/// A point with one head. Its edges' flows and its inflow balance, unless its head is fixed. A node
/// with a store takes up what is left over: (V(H) - volume_before) / Problem::step_s.
struct Node {
  std::optional<double> fixed_head_m;
  double inflow_m3_s = 0.0;  // given from outside; negative is taken out
  bool has_store = false;    // V comes from Problem::stored
  double volume_before_m3 = 0.0;
};

/// What an edge's equation r(q, Hu, Hd) = 0 says. Every kind falls strictly with the flow q, never
/// falls with the head Hu at `up` and never rises with the head Hd at `down`: then the flows are
/// unique and the nodal matrix is an M-matrix. S is a scale (head per flow), h the edge's own loss.
enum class EdgeKind {
  Link,             // Hu - Hd - h(q)
  OneWay,           // max(-S q, Hu - Hd - opening - h(q))
  Discharge,        // max(-S q, Hu - level - h(q)); `down` may be outside or a node
  CappedDischarge,  // max(-S q, min(S (limit - q), Hu - level - h(q)))
  LimitedSupply,    // min(S (limit - q), level - Hd - h(q)); `up` is outside
  Crest,            // joins Hu and Hd unless either falls below a floor: see residual.cpp
  HeldInlet,  // max(-S q, min(Hu - level - h(q), shut_level - Hd - h'(q))): Hd rises to stop it
  HeadHold,   // max(-S q, min(level - Hd - e q, Hu - Hd - e q)): Hd never above level
  Pump,       // max(-S q, Hu - Hd - h(q)), where h is what the edge loses less what it gives
  Ram         // S (phi(ratio) q' - q): a share of the flow q' of the edge `driver`
};

/// One edge. Fields that its kind does not name are not read.
struct Edge {
  EdgeKind kind = EdgeKind::Link;
  std::size_t up = outside;    // positive flow runs from `up` ...
  std::size_t down = outside;  // ... to `down`
  bool closed = false;         // flow 0, whatever the heads
  bool has_loss = false;       // h comes from Problem::loss; else h(q) = linear_loss q
  double linear_loss_s_m2 = 1.0;
  double opening_head_m = 0.0;
  double level_m = 0.0;
  double shut_level_m = 0.0;
  double limit_m3_s = 0.0;
  double velocity_head_s2_m5 = 0.0;  // velocity head = this q^2, for a Crest
  double floor_loss_s_m2 = 1.0;      // of a Crest: how a side rises above the floor with its flow
  double start_flow_m3_s = 0.0;      // where a cold solve begins: a usual flow, not 0
  // Of a Ram (`up` is outside): lift ratio = (Hd - level) / (Hs - level), phi from Problem::share.
  std::size_t driver = outside;  // edge with no lower node, whose flow drives it
  std::size_t supply = outside;  // node with the head Hs that falls; outside: `supply_level_m`
  double supply_level_m = 0.0;
};

/// A loss h [m] of the edge's flow [m3/s] and its exact slope, rising strictly with the flow.
struct Loss {
  double loss_m = 0.0;
  double slope_s_m2 = 0.0;
};

/// Water in a store whose surface stands at a head [m3] and the area of that surface [m2], which is
/// the volume's exact derivative: the volume rises strictly with the head.
struct Stored {
  double volume_m3 = 0.0;
  double area_m2 = 0.0;
};

/// The part of a driving flow that is lifted at a lift ratio, 0 to 1, and its exact slope, never
/// above 0. It must come to 0 at some ratio, or a shut delivery would have no head to stop at.
struct Share {
  double share = 0.0;
  double by_ratio = 0.0;
};

/// The whole network. `loss` is asked for edges with `has_loss` only, `stored` for nodes with
/// `has_store` only; those make one implicit step of `step_s` in time.
struct Problem {
  std::vector<Node> nodes;
  std::vector<Edge> edges;
  std::function<Loss(std::size_t edge, double flow_m3_s)> loss;
  std::function<Stored(std::size_t node, double head_m)> stored;
  std::function<Share(std::size_t edge, double lift_ratio)> share;  // asked for Rams only
  double step_s = 0.0;
};

/// Heads and flows. NaN heads belong to nodes that no supply can reach (`reached` is false).
struct State {
  std::vector<double> head_m;     // one a node
  std::vector<double> flow_m3_s;  // one an edge
};

}  // namespace leat::nodal
