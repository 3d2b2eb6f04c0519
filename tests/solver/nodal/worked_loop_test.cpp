// A printed looped network with h = r q|q|, solved at the core.
#include <array>
#include <cmath>
#include <string>

#include <catch2/catch.hpp>

#include "solver/nodal/newton.h"

namespace leat::nodal {

namespace {

struct Pipe {
  std::size_t up;
  std::size_t down;
  double resistance;
  double exact_flow;
};

// Nodes A B C D are 0 1 2 3.
constexpr std::array<Pipe, 5> pipes = {Pipe{0, 1, 2.0, 57.8338},
                                       {0, 2, 4.0, 42.1662},
                                       {1, 2, 1.0, 20.5536},
                                       {1, 3, 5.0, 17.2802},
                                       {2, 3, 1.0, 32.7198}};

Problem loop() {
  Problem problem;
  problem.nodes = {{20000.0, 0.0}, {{}, -20.0}, {{}, -30.0}, {{}, -50.0}};
  for (const Pipe& pipe : pipes) {
    Edge edge;
    edge.up = pipe.up;
    edge.down = pipe.down;
    edge.has_loss = true;
    edge.start_flow_m3_s = 10.0;
    problem.edges.push_back(edge);
  }
  problem.loss = [](std::size_t edge, double flow) {
    const double r = pipes[edge].resistance;
    return Loss{r * flow * std::abs(flow), 2.0 * r * std::abs(flow)};
  };
  return problem;
}

}  // namespace

TEST_CASE("the worked loop with h = r q squared balances", "[reference]") {
  // Streeter and Wylie, Fluid Mechanics, the relaxation example of a loop of five pipes: inputs
  // from memory, printed answers rounded to 58 42 21 17 33; exact flows by a general root finder
  // (reference-values E4). In 20, 30, 50 out at B, C, D; r 2 4 1 5 1.
  const std::string source = "Streeter and Wylie, loop of five pipes (from memory), E4";
  CAPTURE(source);
  const Solution solution = solve(loop());
  REQUIRE(solution.report.is_usable());
  for (std::size_t i = 0; i < pipes.size(); ++i) {
    // Printed to four decimals.
    CHECK(solution.state.flow_m3_s[i] == Approx(pipes[i].exact_flow).epsilon(0).margin(5.1e-5));
    CHECK(std::round(solution.state.flow_m3_s[i]) == std::round(pipes[i].exact_flow));
  }
  const std::vector<double>& head = solution.state.head_m;
  CHECK(20000.0 - head[1] == Approx(6689.50).epsilon(1e-6));
  CHECK(20000.0 - head[2] == Approx(7111.95).epsilon(1e-6));
  CHECK(20000.0 - head[3] == Approx(8182.53).epsilon(1e-6));
}

TEST_CASE("each step of the loop's last iterations brings the residual down as its square",
          "[law]") {
  const SolveReport report = solve(loop()).report;
  REQUIRE(report.table.size() >= 4);
  const std::size_t last = report.table.size() - 1;
  const double scale = report.table[last - 3].residual_m;
  CHECK(report.table[last - 1].residual_m <=
        2.0 * std::pow(report.table[last - 2].residual_m, 2.0) / scale);
}

}  // namespace leat::nodal
