// What an edge, a report and a limit say before anything is computed from them.
#include <cmath>
#include <limits>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/nodal/residual.h"
#include "solver/nodal/smooth_min.h"
#include "solver/nodal/solve_report.h"

namespace leat::tests {

using nodal::Edge;
using nodal::EdgeKind;
using nodal::makes_unsymmetric;

namespace {

Edge edge_of(EdgeKind kind, std::size_t down) {
  Edge edge;
  edge.kind = kind;
  edge.up = 0;
  edge.down = down;
  return edge;
}

}  // namespace

TEST_CASE("only an edge that gives to a node whose head it does not feel spoils the symmetry") {
  // A pipe's flow depends on both of its heads by as much; water that falls free into a tank does
  // not feel the tank's head at all.
  for (const EdgeKind kind : {EdgeKind::Link, EdgeKind::OneWay, EdgeKind::LimitedSupply}) {
    CAPTURE(static_cast<int>(kind));
    CHECK_FALSE(makes_unsymmetric(edge_of(kind, 1)));
  }
  for (const EdgeKind kind : {EdgeKind::Crest, EdgeKind::HeldInlet, EdgeKind::HeadHold}) {
    CAPTURE(static_cast<int>(kind));
    CHECK(makes_unsymmetric(edge_of(kind, 1)));
  }
  for (const EdgeKind kind : {EdgeKind::Discharge, EdgeKind::CappedDischarge}) {
    CAPTURE(static_cast<int>(kind));
    CHECK(makes_unsymmetric(edge_of(kind, 1)));
    CHECK_FALSE(makes_unsymmetric(edge_of(kind, nodal::outside)));
  }
}

TEST_CASE("a bare edge is an open pipe that costs as much head as it carries flow") {
  nodal::Problem problem;
  problem.nodes.resize(2);
  problem.edges = {edge_of(EdgeKind::Link, 1)};
  const nodal::Loss loss = nodal::edge_loss(problem, 0, 2.0);
  CHECK(loss.loss_m == 2.0);
  CHECK(loss.slope_s_m2 == 1.0);
  CHECK(problem.nodes[0].inflow_m3_s == 0.0);
  const auto residual = [](const Edge& edge, double flow, double up, double down) {
    return nodal::exact_residual_m(edge, flow, up, down, {flow, 1.0}, 10.0);
  };
  // 5 m down to 3 m leaves 2 m for a flow of 2.
  CHECK(residual(problem.edges[0], 2.0, 5.0, 3.0) == 0.0);
  // Without an opening head the one-way opens at once; without a level water leaves at 0 m.
  CHECK(residual(edge_of(EdgeKind::OneWay, 1), 2.0, 5.0, 3.0) == 0.0);
  CHECK(residual(edge_of(EdgeKind::Discharge, 1), 2.0, 2.0, 0.0) == 0.0);
  // A need or a yield that is not given is none.
  CHECK(residual(edge_of(EdgeKind::CappedDischarge, 1), 0.0, 50.0, 0.0) == 0.0);
  // A held inlet shuts at 0 m of head behind it: with e q = 2 m it stands 2 m lower.
  CHECK(residual(edge_of(EdgeKind::HeldInlet, 1), 2.0, 50.0, -2.0) == 0.0);
  // One side of a crest alone, up to its floor at 0 m: q = 2 stands 2 m over it, no depth of its
  // own.
  CHECK(residual(edge_of(EdgeKind::Crest, 1), 2.0, 2.0, -50.0) == 0.0);
}

TEST_CASE("a solve that was not run claims nothing") {
  const nodal::SolveReport report;
  CHECK(report.termination == nodal::Termination::NotRun);
  CHECK_FALSE(report.is_usable());
  CHECK(report.iterations == -1);
  CHECK(report.restarts == 0);
  CHECK(report.analyses == 0);
  CHECK(report.factorisations == 0);
  CHECK(report.symmetric);
  CHECK(report.table.empty());
}

TEST_CASE("where two limits meet the slope is the one along their diagonal") {
  // Along a = b = x > 0: 2x - sqrt(2) x, of which each argument has half: 1 - 1/sqrt(2).
  const nodal::SmoothValue corner = nodal::smooth_min(0.0, 0.0, 0.0);
  CHECK(corner.by_first == Approx(1.0 - 1.0 / std::sqrt(2.0)).epsilon(1e-15));
  CHECK(corner.by_second == Approx(1.0 - 1.0 / std::sqrt(2.0)).epsilon(1e-15));
}

TEST_CASE("a picometre beside half a metre is kept to its ninth figure") {
  // a + b - sqrt(a^2 + b^2) = a - a^2 / 2b + ... = 1e-12 to twelve figures.
  CHECK(nodal::smooth_min(1e-12, 0.5, 0.0).value == Approx(1e-12).epsilon(1e-9).margin(0.0));
}

TEST_CASE("smoothed limits have the value of the published function") {
  // Fischer-Burmeister a + b - sqrt(a^2 + b^2 + 2 mu^2), by hand: 3 + 4 - sqrt(9 + 16) = 2;
  // 1 + 2 - sqrt(1 + 4 + 2 * 2^2) = 3 - sqrt(13); -1 + -2 - sqrt(5 + 8) = -3 - sqrt(13).
  CHECK(nodal::smooth_min(3.0, 4.0, 0.0).value == Approx(2.0).epsilon(1e-14));
  CHECK(nodal::smooth_min(1.0, 2.0, 2.0).value == Approx(3.0 - std::sqrt(13.0)).epsilon(1e-14));
  CHECK(nodal::smooth_min(-1.0, -2.0, 2.0).value == Approx(-3.0 - std::sqrt(13.0)).epsilon(1e-14));
  CHECK(nodal::smooth_max(-3.0, -4.0, 0.0).value == Approx(-2.0).epsilon(1e-14));
}

}  // namespace leat::tests
