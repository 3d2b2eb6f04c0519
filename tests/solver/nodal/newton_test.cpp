// Newton's method on whole networks: a published loop, the named endings, warm starts.
#include "solver/nodal/newton.h"

#include <cmath>
#include <limits>
#include <vector>

#include <catch2/catch.hpp>

namespace leat::tests {

using nodal::Edge;
using nodal::EdgeKind;
using nodal::Loss;
using nodal::NodalSolver;
using nodal::outside;
using nodal::Problem;
using nodal::Solution;
using nodal::Termination;

namespace {

Edge pipe(std::size_t up, std::size_t down, double start_flow) {
  Edge edge;
  edge.kind = EdgeKind::Link;
  edge.up = up;
  edge.down = down;
  edge.has_loss = true;
  edge.start_flow_m3_s = start_flow;
  return edge;
}

/// The loop of Streeter and Wylie, h = r Q|Q|: 100 comes in at A, 20, 30 and 50 leave at B, C, D.
Problem streeter_loop() {
  Problem problem;
  problem.nodes.resize(4);
  problem.nodes[0].fixed_head_m = 0.0;
  problem.nodes[1].inflow_m3_s = -20.0;
  problem.nodes[2].inflow_m3_s = -30.0;
  problem.nodes[3].inflow_m3_s = -50.0;
  // AB, AC, BC, BD, CD.
  problem.edges = {
      pipe(0, 1, 50.0), pipe(0, 2, 50.0), pipe(1, 2, 10.0), pipe(1, 3, 10.0), pipe(2, 3, 10.0)};
  problem.loss = [](std::size_t edge, double flow) {
    constexpr double r[] = {2.0, 4.0, 1.0, 5.0, 1.0};
    return Loss{r[edge] * flow * std::abs(flow), 2.0 * r[edge] * std::abs(flow) + 1e-9};
  };
  return problem;
}

/// A spring above, one tee, two capped discharges, a one-way to a fixed head: limits of every sort.
Problem small_network(double yield_m3_s) {
  Problem problem;
  problem.nodes.resize(4);
  problem.nodes[3].fixed_head_m = 92.0;
  Edge spring;
  spring.kind = EdgeKind::LimitedSupply;
  spring.down = 0;
  spring.level_m = 100.0;
  spring.limit_m3_s = yield_m3_s;
  spring.linear_loss_s_m2 = 0.01;
  spring.start_flow_m3_s = yield_m3_s;
  Edge float_valve;
  float_valve.kind = EdgeKind::CappedDischarge;
  float_valve.up = 2;
  float_valve.has_loss = true;
  float_valve.level_m = 90.0;
  float_valve.limit_m3_s = 3e-4;
  float_valve.start_flow_m3_s = 3e-4;
  Edge one_way = pipe(1, 3, 1e-4);
  one_way.kind = EdgeKind::OneWay;
  problem.edges = {spring, pipe(0, 1, 2e-4), pipe(1, 2, 2e-4), float_valve, one_way};
  problem.loss = [](std::size_t, double flow) {
    return Loss{2e3 * flow + 2e6 * flow * std::abs(flow), 2e3 + 4e6 * std::abs(flow)};
  };
  return problem;
}

}  // namespace

TEST_CASE("the loop of Streeter and Wylie has its exact flows and drops", "[reference]") {
  const char* const source =
      "E4 Streeter & Wylie, Hardy Cross example: M inputs, C exact (printed 58, 42, 21, 17, 33)";
  CAPTURE(source);
  const Solution solution = nodal::solve(streeter_loop());
  INFO(solution.report.sentence);
  REQUIRE(solution.report.is_usable());
  const std::vector<double> flows = {57.8338, 42.1662, 20.5536, 17.2802, 32.7198};
  for (std::size_t i = 0; i < flows.size(); ++i) {
    CAPTURE(i);
    // The source gives four decimals.
    CHECK(solution.state.flow_m3_s[i] == Approx(flows[i]).margin(6e-5));
  }
  const auto drop = [&](std::size_t node) { return -solution.state.head_m[node]; };
  CHECK(drop(1) == Approx(6689.50).margin(0.006));
  CHECK(drop(2) == Approx(7111.95).margin(0.006));
  CHECK(drop(3) == Approx(8182.53).margin(0.006));
}

TEST_CASE("round the loop losses cancel and at every node the water balances") {
  const Solution solution = nodal::solve(streeter_loop());
  REQUIRE(solution.report.is_usable());
  const std::vector<double>& q = solution.state.flow_m3_s;
  const auto loss = [](double r, double flow) { return r * flow * std::abs(flow); };
  const double first = loss(2.0, q[0]) + loss(1.0, q[2]) - loss(4.0, q[1]);
  const double second = loss(1.0, q[2]) + loss(1.0, q[4]) - loss(5.0, q[3]);
  CHECK(std::abs(first) < 1e-9 * 8000.0);
  CHECK(std::abs(second) < 1e-9 * 8000.0);
  CHECK(std::abs(q[0] - q[2] - q[3] - 20.0) < 1e-9 * 100.0);
  CHECK(std::abs(q[1] + q[2] - q[4] - 30.0) < 1e-9 * 100.0);
  CHECK(std::abs(q[3] + q[4] - 50.0) < 1e-9 * 100.0);
}

TEST_CASE("a network already in balance takes no step") {
  const Problem problem = small_network(5e-4);
  NodalSolver solver(problem);
  const Solution cold = solver.solve(problem, {});
  REQUIRE(cold.report.is_usable());
  CHECK(cold.report.iterations > 0);
  const Solution again = solver.solve(problem, {}, &cold.state);
  CHECK(again.report.termination == Termination::Converged);
  CHECK(again.report.iterations == 0);
  CHECK(again.state.flow_m3_s == cold.state.flow_m3_s);
}

TEST_CASE("a solve that may take one step only says that it was stopped") {
  nodal::SolveOptions options;
  options.iteration_limit = 1;
  const Solution solution = nodal::solve(small_network(5e-4), options);
  CHECK(solution.report.termination == Termination::IterationLimit);
  CHECK_FALSE(solution.report.is_usable());
  CHECK(solution.report.iterations == 1);
  CHECK_FALSE(solution.report.sentence.empty());
}

TEST_CASE("a law that gives no number is named by its edge") {
  Problem problem = small_network(5e-4);
  const auto sound = problem.loss;
  problem.loss = [sound](std::size_t edge, double flow) {
    return edge == 2 ? Loss{std::numeric_limits<double>::quiet_NaN(), 1.0} : sound(edge, flow);
  };
  const Solution solution = nodal::solve(problem);
  CHECK(solution.report.termination == Termination::NotFinite);
  REQUIRE(solution.report.index);
  CHECK(*solution.report.index == 2);
  CHECK_FALSE(solution.report.is_usable());
}

TEST_CASE("near the answer each step squares what is left") {
  // Without limits there is nothing smoothed: the last steps are plain Newton.
  const Solution solution = nodal::solve(streeter_loop());
  REQUIRE(solution.report.is_usable());
  const auto& table = solution.report.table;
  REQUIRE(table.size() >= 5);
  const double before = table[table.size() - 3].residual_m;
  const double after = table[table.size() - 2].residual_m;
  const double last = table.back().residual_m;
  CAPTURE(before, after, last);
  // Quadratic: last / after^2 no more than a few times after / before^2 (rounding aside).
  CHECK(last <= 10.0 * (after / before) * (after / before) * after + 1e-9);
  CHECK(table.back().step_length == 0.0);
  for (std::size_t i = 1; i < table.size(); ++i) {
    CHECK(table[i].iteration == table[i - 1].iteration + 1);
  }
}

TEST_CASE("a spring that changes a little is followed in fewer steps than a fresh start takes") {
  const Problem first = small_network(3.5e-4);
  NodalSolver solver(first);
  const Solution cold = solver.solve(first, {});
  REQUIRE(cold.report.is_usable());
  // The spring is the limit here: all of its yield runs.
  CHECK(cold.state.flow_m3_s[0] == Approx(3.5e-4).epsilon(1e-6));
  const Problem second = small_network(3.5e-4 * 0.95);
  const Solution warm = solver.solve(second, {}, &cold.state);
  REQUIRE(warm.report.is_usable());
  CHECK(warm.report.iterations <= 4);
  CHECK(warm.report.iterations < cold.report.iterations);
  const Solution fresh = nodal::solve(second);
  for (std::size_t i = 0; i < fresh.state.flow_m3_s.size(); ++i) {
    CHECK(warm.state.flow_m3_s[i] == Approx(fresh.state.flow_m3_s[i]).margin(1e-12));
  }
}

TEST_CASE("a line shut since the last answer carries nothing in the next") {
  const Solution before = nodal::solve(streeter_loop());
  Problem problem = streeter_loop();
  problem.edges[2].closed = true;
  NodalSolver solver(problem);
  const Solution after = solver.solve(problem, {}, &before.state);
  REQUIRE(after.report.is_usable());
  CHECK(before.state.flow_m3_s[2] != 0.0);
  CHECK(after.state.flow_m3_s[2] == 0.0);
  // Round what is left, 2 Q^2 + 5 (Q - 20)^2 = 4 (100 - Q)^2 + (70 - Q)^2: Q = 50.9555 by
  // bisection.
  CHECK(after.state.flow_m3_s[0] == Approx(50.9555).epsilon(1e-5));
}

TEST_CASE("a change of a spring that only spills takes no step") {
  const Problem first = small_network(1e-2);
  NodalSolver solver(first);
  const Solution cold = solver.solve(first, {});
  REQUIRE(cold.report.is_usable());
  const Solution warm = solver.solve(small_network(0.95e-2), {}, &cold.state);
  CHECK(warm.report.is_usable());
  CHECK(warm.report.iterations == 0);
}

TEST_CASE("the pattern is analysed once however often a network is solved") {
  const Problem problem = small_network(5e-4);
  NodalSolver solver(problem);
  for (int i = 0; i < 3; ++i) {
    const Solution solution = solver.solve(problem, {});
    REQUIRE(solution.report.is_usable());
    CHECK(solution.report.analyses == 1);
    CHECK(solution.report.factorisations == solution.report.iterations);
    CHECK(solution.report.symmetric);
  }
}

TEST_CASE("nodes that no supply reaches have no head and their edges carry nothing") {
  Problem problem = small_network(5e-4);
  problem.nodes.resize(6);
  Edge against = pipe(4, 1, 1e-3);
  against.kind = EdgeKind::OneWay;
  problem.edges.push_back(against);
  problem.edges.push_back(pipe(4, 5, 1e-3));
  const Solution solution = nodal::solve(problem);
  REQUIRE(solution.report.is_usable());
  CHECK(solution.reached == std::vector<bool>{true, true, true, true, false, false});
  CHECK(std::isnan(solution.state.head_m[4]));
  CHECK(std::isnan(solution.state.head_m[5]));
  CHECK(solution.state.flow_m3_s[5] == 0.0);
  CHECK(solution.state.flow_m3_s[6] == 0.0);
  CHECK_FALSE(std::isnan(solution.state.head_m[1]));
}

TEST_CASE("a float takes its need and the rest goes over the one-way") {
  const Solution solution = nodal::solve(small_network(1e-2));
  REQUIRE(solution.report.is_usable());
  CHECK(solution.state.flow_m3_s[3] == Approx(3e-4).epsilon(1e-6));
  CHECK(solution.state.flow_m3_s[4] > 1e-4);
  CHECK(solution.state.flow_m3_s[0] ==
        Approx(solution.state.flow_m3_s[3] + solution.state.flow_m3_s[4]));
  CHECK(solution.state.head_m[0] == Approx(100.0).margin(1e-3));
}

TEST_CASE("a network with neither nodes nor edges is solved") {
  Problem problem;
  problem.loss = [](std::size_t, double flow) { return Loss{flow, 1.0}; };
  CHECK(nodal::solve(problem).report.is_usable());
}

}  // namespace leat::tests
