// Pumps and rams in the nodal core, against intersections worked out by hand, and by the thousand.
#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/nodal/newton.h"
#include "solver/nodal/reach.h"
#include "solver/nodal/residual.h"
#include "tests/support/farms_asked.h"

namespace leat::tests {

using nodal::Edge;
using nodal::EdgeKind;
using nodal::Loss;
using nodal::outside;
using nodal::Problem;
using nodal::Share;
using nodal::Solution;

namespace {

constexpr double shut_off_m = 20.0;
constexpr double curve_s_m2 = 1000.0;   // head given up per flow
constexpr double pipe_s2_m5 = 50000.0;  // a pipe's loss per flow squared

Edge edge_of(EdgeKind kind, std::size_t up, std::size_t down) {
  Edge edge;
  edge.kind = kind;
  edge.up = up;
  edge.down = down;
  edge.has_loss = true;
  return edge;
}

Loss square_loss(double per_square, double flow) {
  return {per_square * flow * std::abs(flow) + 1e-3 * flow,
          2.0 * per_square * std::abs(flow) + 1e-3};
}

/// A pump from water at 0 m through a pipe to water at `upper_m`.
Problem pumped(double upper_m) {
  Problem problem;
  problem.nodes.resize(3);
  problem.nodes[0].fixed_head_m = 0.0;
  problem.nodes[2].fixed_head_m = upper_m;
  problem.edges = {edge_of(EdgeKind::Pump, 0, 1), edge_of(EdgeKind::Link, 1, 2)};
  problem.loss = [](std::size_t edge, double flow) {
    return edge == 0 ? Loss{curve_s_m2 * flow - shut_off_m, curve_s_m2}
                     : square_loss(pipe_s2_m5, flow);
  };
  return problem;
}

/// Efficiency 0.6 up to a ratio of 24, then straight to nothing at 26.
Share six_tenths(double ratio) {
  if (ratio < 1.0) {
    return {0.6, 0.0};
  }
  if (ratio >= 26.0) {
    return {};
  }
  const double efficiency = ratio <= 24.0 ? 0.6 : 0.3 * (26.0 - ratio);
  const double slope = ratio <= 24.0 ? 0.0 : -0.3;
  return {efficiency / ratio, (slope - efficiency / ratio) / ratio};
}

/// Water at 10 m drives a ram at 6 m through a pipe; it lifts to water at `upper_m`. Edges: drive
/// pipe, drive end, ram, delivery pipe. Nodes: source, ram inlet, ram outlet, upper water.
Problem rammed(double upper_m) {
  Problem problem;
  problem.nodes.resize(4);
  problem.nodes[0].fixed_head_m = 10.0;
  problem.nodes[3].fixed_head_m = upper_m;
  Edge inlet = edge_of(EdgeKind::CappedDischarge, 1, outside);
  inlet.level_m = 6.0;
  inlet.limit_m3_s = 1.0;
  Edge ram = edge_of(EdgeKind::Ram, outside, 2);
  ram.has_loss = false;
  ram.level_m = 6.0;
  ram.driver = 1;
  ram.supply_level_m = 10.0;
  problem.edges = {edge_of(EdgeKind::Link, 0, 1), inlet, ram, edge_of(EdgeKind::OneWay, 2, 3)};
  problem.loss = [](std::size_t edge, double flow) {
    return edge == 1 ? Loss{1e-3 * flow, 1e-3} : square_loss(edge == 0 ? 4e6 : 1e8, flow);
  };
  problem.share = [](std::size_t, double ratio) { return six_tenths(ratio); };
  return problem;
}

}  // namespace

TEST_CASE("a pump runs where its straight curve meets the square loss of its pipe") {
  // 20 - 1000 q = 10 + 50000 q^2, the positive root by the school formula.
  const Solution solution = nodal::solve(pumped(10.0));
  REQUIRE(solution.report.is_usable());
  const double expected =
      (-curve_s_m2 + std::sqrt(curve_s_m2 * curve_s_m2 + 4.0 * pipe_s2_m5 * 10.0)) /
      (2.0 * pipe_s2_m5);
  CHECK(solution.state.flow_m3_s[0] == Approx(expected).epsilon(1e-6));
  CHECK(solution.state.head_m[1] == Approx(shut_off_m - curve_s_m2 * expected).epsilon(1e-6));
}

TEST_CASE("a pump whose shut-off head is too low lifts nothing and lets nothing back") {
  const Solution solution = nodal::solve(pumped(25.0));
  REQUIRE(solution.report.is_usable());
  CHECK(solution.state.flow_m3_s[0] == Approx(0.0).margin(1e-12));
  CHECK(solution.state.flow_m3_s[1] == Approx(0.0).margin(1e-9));
  CHECK(solution.state.head_m[1] == Approx(25.0).margin(1e-6));
}

TEST_CASE("a pump against a shut pipe comes to its shut-off head at least") {
  Problem problem = pumped(10.0);
  problem.edges[1].closed = true;
  const Solution solution = nodal::solve(problem);
  REQUIRE(solution.report.is_usable());
  CHECK(solution.state.flow_m3_s[0] == Approx(0.0).margin(1e-9));
  CHECK(solution.state.head_m[1] >= shut_off_m - 1e-4);
}

TEST_CASE("beyond a pump that stands still no water comes") {
  Problem problem = pumped(10.0);
  problem.nodes[2].fixed_head_m.reset();
  problem.edges[0].closed = true;
  CHECK(nodal::nodes_reached(problem) == std::vector<bool>{true, false, false});
  problem.edges[0].closed = false;
  CHECK(nodal::nodes_reached(problem) == std::vector<bool>{true, true, true});
}

TEST_CASE("a ram lifts its efficiency's share of what its drive pipe brings") {
  const Solution solution = nodal::solve(rammed(22.0));
  REQUIRE(solution.report.is_usable());
  // The drive pipe alone: 4 m over 4e6 s2/m5 is 1 L/s.
  const double drive = solution.state.flow_m3_s[1];
  CHECK(drive == Approx(1e-3).epsilon(1e-5));
  // By hand: start at a lift of 16 m and let the delivery's own loss raise it.
  double lifted = 0.0;
  for (int i = 0; i < 60; ++i) {
    const double lift_m = 16.0 + 1e8 * lifted * lifted;
    lifted = 0.6 * drive * 4.0 / lift_m;
  }
  CHECK(solution.state.flow_m3_s[2] == Approx(lifted).epsilon(1e-5));
  CHECK(solution.state.flow_m3_s[3] == Approx(lifted).epsilon(1e-5));
}

TEST_CASE("a ram set to less takes less, and lifts the same share of it") {
  Problem problem = rammed(22.0);
  problem.edges[1].limit_m3_s = 4e-4;
  const Solution solution = nodal::solve(problem);
  REQUIRE(solution.report.is_usable());
  CHECK(solution.state.flow_m3_s[1] == Approx(4e-4).epsilon(1e-6));
  CHECK(solution.state.flow_m3_s[2] / 4e-4 ==
        Approx(0.6 * 4.0 / (solution.state.head_m[2] - 6.0)).epsilon(1e-6));
}

TEST_CASE("a ram whose delivery is shut stalls at twenty-six times its fall") {
  Problem problem = rammed(22.0);
  problem.edges[3].closed = true;
  const Solution solution = nodal::solve(problem);
  REQUIRE(solution.report.is_usable());
  CHECK(solution.state.flow_m3_s[2] == Approx(0.0).margin(1e-9));
  CHECK(solution.state.head_m[2] >= 6.0 + 26.0 * 4.0 - 0.01);
  CHECK(solution.state.flow_m3_s[1] == Approx(1e-3).epsilon(1e-5));  // all of it to waste
}

TEST_CASE("nothing reaches a ram's delivery when its drive pipe is shut") {
  Problem problem = rammed(22.0);
  problem.edges[1].closed = true;
  problem.nodes[3].fixed_head_m.reset();
  CHECK(nodal::nodes_reached(problem) == std::vector<bool>{true, true, false, false});
  const Solution solution = nodal::solve(problem);
  REQUIRE(solution.report.is_usable());
  CHECK(solution.state.flow_m3_s[2] == 0.0);
}

TEST_CASE("a ram states the derivatives of its own residual") {
  const Problem problem = rammed(22.0);
  constexpr double scale = 1e5;
  const auto value = [&](double flow, double drive, double down, double supply) {
    return nodal::ram_residual(problem, 2, flow, drive, down, supply, scale).residual.residual_m;
  };
  for (const double down : {4.0, 15.3, 40.0, 105.1, 150.0}) {
    for (const double supply : {8.1, 9.7, 10.0}) {
      constexpr double flow = 2e-4;
      constexpr double drive = 1e-3;
      constexpr double step = 1e-6;
      CAPTURE(down, supply);
      const nodal::RamResidual said =
          nodal::ram_residual(problem, 2, flow, drive, down, supply, scale);
      const auto slope = [&](double above, double below, double by) {
        return (above - below) / (2.0 * by);
      };
      CHECK(said.residual.by_flow_s_m2 == Approx(-scale));
      CHECK(said.by_driving_flow_s_m2 == Approx(slope(value(flow, drive + 1e-7, down, supply),
                                                      value(flow, drive - 1e-7, down, supply),
                                                      1e-7))
                                             .margin(1e-6));
      CHECK(said.residual.by_head_down == Approx(slope(value(flow, drive, down + step, supply),
                                                       value(flow, drive, down - step, supply),
                                                       step))
                                              .margin(1e-5));
      CHECK(said.by_supply_head == Approx(slope(value(flow, drive, down, supply + step),
                                                value(flow, drive, down, supply - step),
                                                step))
                                       .margin(1e-5));
      CHECK(said.residual.by_head_down <= 0.0);
      CHECK(said.by_supply_head >= 0.0);
    }
  }
}

namespace {

/// A random scheme: two supplies, a tree of pipes, floats and open ends, up to four pumps between
/// any tees and up to four rams driven from any tee and delivering to any other.
class RandomScheme {
 public:
  explicit RandomScheme(std::uint64_t seed) : random_(seed) {}

  Problem make() {
    problem_.nodes.resize(2);
    problem_.nodes[0].fixed_head_m = level(40.0, 60.0);
    add_spring();
    const std::size_t tees = 3 + pick(20);
    for (std::size_t i = 0; i < tees; ++i) {
      const std::size_t from = pick(problem_.nodes.size());
      problem_.nodes.push_back({});
      add_pipe(chance(0.15) ? EdgeKind::OneWay : EdgeKind::Link, from, problem_.nodes.size() - 1);
    }
    for (std::size_t i = 2; i < problem_.nodes.size(); ++i) {
      if (chance(0.4)) {
        add_end(i);
      }
    }
    const std::size_t count = problem_.nodes.size();
    for (std::size_t i = pick(5); i > 0; --i) {
      add_pump(pick(count), pick(count));
    }
    for (std::size_t i = 1 + pick(4); i > 0; --i) {
      add_ram(pick(count), pick(count));
    }
    // The closures must not look into this object, which goes.
    problem_.loss = [squares = squares_, shut_offs = shut_offs_](std::size_t edge, double flow) {
      Loss loss = square_loss(squares[edge], flow);
      loss.loss_m -= shut_offs[edge];
      return loss;
    };
    problem_.share = [](std::size_t, double ratio) { return six_tenths(ratio); };
    return problem_;
  }

 private:
  double level(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random_);
  }
  std::size_t pick(std::size_t count) {
    return std::uniform_int_distribution<std::size_t>(0, count - 1)(random_);
  }
  bool chance(double share) { return level(0.0, 1.0) < share; }

  void add(const Edge& edge, double per_square, double shut_off = 0.0) {
    problem_.edges.push_back(edge);
    squares_.push_back(per_square);
    shut_offs_.push_back(shut_off);
  }

  void add_spring() {
    Edge spring = edge_of(EdgeKind::LimitedSupply, outside, 1);
    spring.has_loss = false;
    spring.linear_loss_s_m2 = 0.01;
    spring.level_m = level(40.0, 60.0);
    spring.limit_m3_s = std::pow(10.0, level(-4.5, -2.5));
    spring.start_flow_m3_s = spring.limit_m3_s;
    add(spring, 0.0);
  }

  void add_pipe(EdgeKind kind, std::size_t up, std::size_t down) {
    Edge pipe = edge_of(kind, up, down);
    pipe.start_flow_m3_s = 2e-4;
    add(pipe, std::pow(10.0, level(6.0, 8.5)));
  }

  void add_end(std::size_t node) {
    Edge end =
        edge_of(chance(0.5) ? EdgeKind::CappedDischarge : EdgeKind::Discharge, node, outside);
    end.level_m = level(0.0, 70.0);
    end.limit_m3_s = std::pow(10.0, level(-5.0, -3.0));
    end.start_flow_m3_s = 2e-4;
    add(end, 1e6);
  }

  void add_pump(std::size_t up, std::size_t down) {
    if (up == down) {
      return;
    }
    Edge pump = edge_of(EdgeKind::Pump, up, down);
    pump.start_flow_m3_s = 3e-4;
    add(pump, std::pow(10.0, level(6.5, 8.0)), level(2.0, 40.0));
  }

  void add_ram(std::size_t source, std::size_t delivers) {
    problem_.nodes.push_back({});
    const std::size_t inlet_node = problem_.nodes.size() - 1;
    add_pipe(EdgeKind::Link, source, inlet_node);
    Edge inlet = edge_of(EdgeKind::CappedDischarge, inlet_node, outside);
    inlet.level_m = level(5.0, 55.0);
    inlet.limit_m3_s = std::pow(10.0, level(-4.5, -2.5));
    inlet.start_flow_m3_s = 2e-4;
    add(inlet, 1e6);
    Edge ram = edge_of(EdgeKind::Ram, outside, delivers);
    ram.has_loss = false;
    ram.driver = problem_.edges.size() - 1;
    ram.level_m = inlet.level_m;
    ram.supply = source;
    if (chance(0.3)) {
      ram.supply = outside;
      ram.supply_level_m = 55.0;
    }
    add(ram, 0.0);
  }

  std::mt19937_64 random_;
  Problem problem_;
  std::vector<double> squares_;
  std::vector<double> shut_offs_;
};

}  // namespace

TEST_CASE("two thousand random schemes with pumps and rams are solved") {
  const std::uint64_t count = farms_asked() / 10;
  std::uint64_t unsolved = 0;
  std::uint64_t lifting = 0;
  std::uint64_t pumping = 0;
  double iterations = 0.0;
  std::string which;
  for (std::uint64_t seed = 1; seed <= count; ++seed) {
    const Problem problem = RandomScheme(seed).make();
    const Solution solution = nodal::solve(problem);
    iterations += solution.report.iterations;
    if (!solution.report.is_usable()) {
      ++unsolved;
      which += " " + std::to_string(seed);
      continue;
    }
    for (std::size_t i = 0; i < problem.edges.size(); ++i) {
      const Edge& edge = problem.edges[i];
      const double flow = solution.state.flow_m3_s[i];
      if (edge.kind == EdgeKind::Pump) {
        CHECK(flow >= -1e-12);
        pumping += flow > 1e-6 ? 1 : 0;
      } else if (edge.kind == EdgeKind::Ram) {
        const double driving = solution.state.flow_m3_s[edge.driver];
        CHECK(flow >= -1e-12);
        CHECK(flow <= 0.6 * driving + 1e-12);
        lifting += flow > 1e-6 ? 1 : 0;
      }
    }
  }
  CAPTURE(which, iterations / static_cast<double>(count));
  CHECK(unsolved == 0);
  CHECK(lifting > count / 3);
  CHECK(pumping > count / 3);
}

}  // namespace leat::tests
