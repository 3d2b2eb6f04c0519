// Which nodes some supply can reach.
#include "solver/nodal/reach.h"

#include <vector>

#include <catch2/catch.hpp>

namespace leat::tests {

using nodal::Edge;
using nodal::EdgeKind;
using nodal::nodes_reached;
using nodal::Problem;

namespace {

Edge edge_between(EdgeKind kind, std::size_t up, std::size_t down) {
  Edge edge;
  edge.kind = kind;
  edge.up = up;
  edge.down = down;
  return edge;
}

/// Node 0 has a given head, the others none.
Problem chain(std::vector<Edge> edges, std::size_t nodes) {
  Problem problem;
  problem.nodes.resize(nodes);
  problem.nodes[0].fixed_head_m = 10.0;
  problem.edges = std::move(edges);
  return problem;
}

}  // namespace

TEST_CASE("a link is passed both ways and a one-way only along itself") {
  CHECK(nodes_reached(chain({edge_between(EdgeKind::Link, 1, 0)}, 2))[1]);
  CHECK(nodes_reached(chain({edge_between(EdgeKind::Crest, 1, 0)}, 2))[1]);
  for (const EdgeKind kind :
       {EdgeKind::OneWay, EdgeKind::Discharge, EdgeKind::HeldInlet, EdgeKind::HeadHold}) {
    CAPTURE(static_cast<int>(kind));
    CHECK(nodes_reached(chain({edge_between(kind, 0, 1)}, 2))[1]);
    CHECK_FALSE(nodes_reached(chain({edge_between(kind, 1, 0)}, 2))[1]);
  }
}

TEST_CASE("a closed edge is no way") {
  Edge edge = edge_between(EdgeKind::Link, 0, 1);
  edge.closed = true;
  CHECK_FALSE(nodes_reached(chain({edge}, 2))[1]);
}

TEST_CASE("a supply from outside and a given inflow reach their nodes and what lies behind") {
  Problem problem;
  problem.nodes.resize(5);
  problem.nodes[2].inflow_m3_s = 1e-3;
  problem.edges = {edge_between(EdgeKind::LimitedSupply, nodal::outside, 0),
                   edge_between(EdgeKind::OneWay, 0, 1),
                   edge_between(EdgeKind::Link, 2, 3),
                   edge_between(EdgeKind::OneWay, 4, 3)};
  CHECK(nodes_reached(problem) == std::vector<bool>{true, true, true, true, false});
}

}  // namespace leat::tests
