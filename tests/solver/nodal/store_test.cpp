// Stores in the nodal core: an implicit step in time that loses no water.
#include <cmath>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/nodal/newton.h"

namespace leat::tests {

using nodal::Edge;
using nodal::EdgeKind;
using nodal::NodalSolver;
using nodal::outside;
using nodal::Problem;
using nodal::Solution;
using nodal::Stored;

namespace {

constexpr double tank_area_m2 = 2.0;

/// A tank of upright walls that runs out at its floor through a linear loss: dV/dt = -H / r, so
/// H falls as exp(-t / (r A)).
Problem leaking_tank(double head_m, double loss_s_m2, double step_s) {
  Problem problem;
  problem.nodes.resize(1);
  problem.nodes[0].has_store = true;
  problem.nodes[0].volume_before_m3 = tank_area_m2 * head_m;
  Edge out;
  out.kind = EdgeKind::Discharge;
  out.up = 0;
  out.linear_loss_s_m2 = loss_s_m2;
  problem.edges = {out};
  problem.stored = [](std::size_t, double head) {
    return Stored{tank_area_m2 * head, tank_area_m2};
  };
  problem.step_s = step_s;
  return problem;
}

/// Walls that slope 2 to 1 above a square floor of 4 m.
Stored sloping(double head_m) {
  const double side = 4.0 + 4.0 * head_m;
  return {(side * side * side - 64.0) / 12.0, side * side};
}

}  // namespace

TEST_CASE("a tank that empties through a straight loss follows the backward step by hand") {
  // Backward Euler by hand: A (H1 - H0) / dt = -H1 / r, so H1 = H0 / (1 + dt / (r A)).
  const Solution solution = nodal::solve(leaking_tank(3.0, 500.0, 600.0));
  REQUIRE(solution.report.is_usable());
  CHECK(solution.state.head_m[0] == Approx(3.0 / 1.6).epsilon(1e-9));
  CHECK(solution.state.flow_m3_s[0] == Approx(3.0 / 1.6 / 500.0).epsilon(1e-9));
}

TEST_CASE("shorter steps come nearer to the exponential that a linear tank follows") {
  const double exact = 3.0 * std::exp(-3600.0 / 1000.0);
  double last_error = 1e9;
  for (const int steps : {6, 60, 600}) {
    double head = 3.0;
    for (int i = 0; i < steps; ++i) {
      head = nodal::solve(leaking_tank(head, 500.0, 3600.0 / steps)).state.head_m[0];
    }
    const double error = std::abs(head - exact);
    CHECK(error < 0.15 * last_error);  // first order: a tenth of the step, a tenth of the error
    last_error = error;
  }
  CHECK(last_error < 0.002);
}

TEST_CASE("a store of minutes and one of months take the same step without a sway") {
  Problem problem;
  problem.nodes.resize(2);
  for (nodal::Node& node : problem.nodes) {
    node.has_store = true;
  }
  problem.nodes[0].volume_before_m3 = 5000.0 * 2.0;
  problem.nodes[1].volume_before_m3 = 0.5 * 0.1;
  Edge link;
  link.kind = EdgeKind::Link;
  link.up = 0;
  link.down = 1;
  link.linear_loss_s_m2 = 1e4;
  problem.edges = {link};
  problem.stored = [](std::size_t node, double head) {
    const double area = node == 0 ? 5000.0 : 0.5;
    return Stored{area * head, area};
  };
  problem.step_s = 86400.0;
  const Solution solution = nodal::solve(problem);
  REQUIRE(solution.report.is_usable());
  const double big = solution.state.head_m[0];
  const double small = solution.state.head_m[1];
  CHECK(small > 0.1);
  CHECK(small < big);
  CHECK(5000.0 * big + 0.5 * small == Approx(10000.05).epsilon(1e-13));
}

TEST_CASE("where the sides slope no water is lost in a thousand steps") {
  double volume = sloping(1.0).volume_m3;
  const double first = volume;
  double given = 0.0;
  double spilled = 0.0;
  for (int step = 0; step < 1000; ++step) {
    Problem problem;
    problem.nodes.resize(1);
    problem.nodes[0].has_store = true;
    problem.nodes[0].volume_before_m3 = volume;
    problem.nodes[0].inflow_m3_s = step % 3 == 0 ? 4e-3 : 0.0;
    Edge spill;
    spill.kind = EdgeKind::Discharge;
    spill.up = 0;
    spill.level_m = 2.0;
    spill.linear_loss_s_m2 = 1.0;
    Edge drunk;
    drunk.kind = EdgeKind::CappedDischarge;
    drunk.up = 0;
    drunk.level_m = 0.1;
    drunk.limit_m3_s = 5e-4;
    problem.edges = {spill, drunk};
    problem.stored = [](std::size_t, double head) { return sloping(head); };
    problem.step_s = 3600.0;
    const Solution solution = nodal::solve(problem);
    REQUIRE(solution.report.is_usable());
    volume = sloping(solution.state.head_m[0]).volume_m3;
    given += problem.step_s * problem.nodes[0].inflow_m3_s;
    spilled += problem.step_s * (solution.state.flow_m3_s[0] + solution.state.flow_m3_s[1]);
  }
  CHECK(spilled > 0.0);
  CHECK(volume - first == Approx(given - spilled).margin(1e-7 * given));
}

TEST_CASE("stock drink a store down to its bottom and no further") {
  Problem problem = leaking_tank(0.2, 1e9, 3600.0);
  Edge drunk;
  drunk.kind = EdgeKind::CappedDischarge;
  drunk.up = 0;
  drunk.level_m = 0.05;
  drunk.limit_m3_s = 1e-3;
  problem.edges.push_back(drunk);
  const Solution solution = nodal::solve(problem);
  REQUIRE(solution.report.is_usable());
  // 0.3 m3 stand above the bottom; the herd wanted 3.6.
  CHECK(3600.0 * solution.state.flow_m3_s[1] == Approx(0.3).epsilon(1e-3));
  CHECK(solution.state.head_m[0] == Approx(0.05).margin(1e-3));
}

}  // namespace leat::tests
