// Derivatives by one transposed solve are those of solving again.
#include "solver/nodal/sensitivity.h"

#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/nodal/newton.h"

namespace leat::nodal {

namespace {

/// A square law on every edge that has one.
Problem with_square_law(Problem problem) {
  problem.loss = [](std::size_t edge, double flow) {
    const double resistance = 1e6 * (1.0 + static_cast<double>(edge));
    return Loss{resistance * flow * std::abs(flow) + 1e-3 * flow,
                2.0 * resistance * std::abs(flow) + 1e-3};
  };
  return problem;
}

Edge edge_of(EdgeKind kind, std::size_t up, std::size_t down, bool has_loss) {
  Edge edge;
  edge.kind = kind;
  edge.up = up;
  edge.down = down;
  edge.has_loss = has_loss;
  edge.start_flow_m3_s = 1e-3;
  return edge;
}

/// A spring box that spills, a tank, a tee, a summit, a regulator, a float at its limit and an
/// outlet: every kind of piece stands in it somewhere.
Problem little_scheme() {
  Problem problem;
  problem.nodes.resize(7);
  problem.nodes[0].fixed_head_m = 20.0;  // tank
  Edge spring = edge_of(EdgeKind::LimitedSupply, outside, 1, false);
  spring.level_m = 18.0;
  spring.limit_m3_s = 4e-4;
  spring.linear_loss_s_m2 = 0.01;
  Edge crest = edge_of(EdgeKind::Crest, 3, 4, false);
  crest.level_m = 6.0;
  crest.velocity_head_s2_m5 = 1e5;
  crest.linear_loss_s_m2 = 1e-3;
  crest.floor_loss_s_m2 = 1e-3;
  Edge hold = edge_of(EdgeKind::HeadHold, 5, 6, false);
  hold.level_m = 4.0;
  hold.linear_loss_s_m2 = 1e-3;
  Edge outlet = edge_of(EdgeKind::Discharge, 6, outside, true);
  outlet.level_m = 1.0;
  Edge trough = edge_of(EdgeKind::CappedDischarge, 2, outside, true);
  trough.level_m = 3.0;
  trough.limit_m3_s = 3e-4;
  Edge check = edge_of(EdgeKind::OneWay, 2, 3, true);
  check.opening_head_m = 0.2;
  problem.edges = {spring,
                   edge_of(EdgeKind::Link, 0, 2, true),
                   edge_of(EdgeKind::Link, 1, 2, true),
                   check,
                   crest,
                   edge_of(EdgeKind::Link, 4, 5, true),
                   hold,
                   outlet,
                   trough};
  return with_square_law(problem);
}

Solution solved_tightly(const Problem& problem) {
  SolveOptions how;
  how.head_tolerance_m = 1e-11;
  Solution solution = solve(problem, how);
  REQUIRE(solution.report.is_usable());
  return solution;
}

double value_of(const Aim& aim, const State& state) {
  double sum = 0.0;
  for (const Aim::Term& term : aim.heads) {
    sum += term.weight * state.head_m[term.index];
  }
  for (const Aim::Term& term : aim.flows) {
    sum += term.weight * state.flow_m3_s[term.index];
  }
  return sum;
}

/// Central difference of an aim by a change of the problem.
double difference(const Problem& problem,
                  const Aim& aim,
                  double step,
                  const std::function<void(Problem&, double)>& change) {
  Problem more = problem;
  Problem less = problem;
  change(more, step);
  change(less, -step);
  return (value_of(aim, solved_tightly(more).state) - value_of(aim, solved_tightly(less).state)) /
         (2.0 * step);
}

double* number_in(Edge& edge, EdgeNumber number) {
  switch (number) {
    case EdgeNumber::Level:
      return &edge.level_m;
    case EdgeNumber::ShutLevel:
      return &edge.shut_level_m;
    case EdgeNumber::OpeningHead:
      return &edge.opening_head_m;
    case EdgeNumber::Limit:
      return &edge.limit_m3_s;
    case EdgeNumber::LinearLoss:
      return &edge.linear_loss_s_m2;
    case EdgeNumber::FloorLoss:
      return &edge.floor_loss_s_m2;
    case EdgeNumber::VelocityHead:
      return &edge.velocity_head_s2_m5;
    case EdgeNumber::Loss:
      break;
  }
  return nullptr;
}

void check_every_number(const Problem& problem) {
  const Solution solution = solved_tightly(problem);
  Sensitivities sensitivities(problem, solution.state);
  const std::vector<Aim> aims = {
      aim_at_flow(7), aim_at_flow(1), aim_at_head(2), {{{3, 2.0}}, {{5, -1.0}}}};
  for (const Aim& aim : aims) {
    const Sensitivity found = sensitivities.of(aim);
    REQUIRE(found.is_known);
    const double size = std::abs(value_of(aim, solution.state));
    for (std::size_t i = 0; i < problem.edges.size(); ++i) {
      const Edge& edge = problem.edges[i];
      for (const EdgeNumber number : {EdgeNumber::Level,
                                      EdgeNumber::OpeningHead,
                                      EdgeNumber::Limit,
                                      EdgeNumber::VelocityHead,
                                      EdgeNumber::ShutLevel}) {
        Edge copy = edge;
        const double now = *number_in(copy, number);
        if (now == 0.0) {
          continue;
        }
        const auto head = [&](std::size_t node) {
          return node == outside ? 0.0 : solution.state.head_m[node];
        };
        const double flow = solution.state.flow_m3_s[i];
        const Loss loss = edge.has_loss ? problem.loss(i, flow)
                                        : Loss{edge.linear_loss_s_m2 * flow, edge.linear_loss_s_m2};
        const double by_number =
            found.by_residual[i] *
            residual_by(edge, number, flow, head(edge.up), head(edge.down), loss);
        const double measured =
            difference(problem, aim, 1e-4 * now, [&](Problem& changed, double step) {
              *number_in(changed.edges[i], number) += step;
            });
        INFO("edge " << i << ", number " << static_cast<int>(number));
        CHECK(by_number == Approx(measured).epsilon(1e-5).margin(1e-6 * size / std::abs(now)));
      }
    }
    for (std::size_t node = 0; node < problem.nodes.size(); ++node) {
      INFO("node " << node);
      const bool is_given = problem.nodes[node].fixed_head_m.has_value();
      const double measured =
          difference(problem, aim, is_given ? 1e-3 : 1e-8, [&](Problem& changed, double step) {
            if (is_given) {
              *changed.nodes[node].fixed_head_m += step;
            } else {
              changed.nodes[node].inflow_m3_s += step;
            }
          });
      const double stated = is_given ? found.by_fixed_head[node] : found.by_inflow[node];
      CHECK(stated == Approx(measured).epsilon(1e-5).margin(1e-7 * (1.0 + size)));
    }
  }
}

}  // namespace

TEST_CASE("Each number of a scheme moves its flows and heads as the transposed solve says") {
  check_every_number(little_scheme());
}

TEST_CASE("Each number moves them so with the summit parted as well") {
  Problem problem = little_scheme();
  problem.edges[4].level_m = 15.0;  // above what reaches it
  check_every_number(problem);
}

TEST_CASE("Each number moves them so with a spring that gives all it has") {
  Problem problem = little_scheme();
  problem.nodes[0].fixed_head_m = 9.0;
  problem.edges[0].limit_m3_s = 1e-4;
  check_every_number(problem);
}

TEST_CASE("A flow through a square law answers to its fall by half of flow over fall") {
  // q = sqrt(dH / R), so dq/dH = q / (2 dH): closed form.
  Problem problem;
  problem.nodes.resize(2);
  problem.nodes[0].fixed_head_m = 10.0;
  problem.nodes[1].fixed_head_m = 6.0;
  problem.edges = {edge_of(EdgeKind::Link, 0, 1, true)};
  problem.loss = [](std::size_t, double flow) {
    return Loss{4e6 * flow * std::abs(flow), 8e6 * std::abs(flow) + 1e-12};
  };
  const Solution solution = solved_tightly(problem);
  const Sensitivity found = Sensitivities(problem, solution.state).of(aim_at_flow(0));
  const double flow = std::sqrt(4.0 / 4e6);
  CHECK(found.by_fixed_head[0] == Approx(flow / 8.0).epsilon(1e-9));
  CHECK(found.by_fixed_head[1] == Approx(-flow / 8.0).epsilon(1e-9));
}

TEST_CASE("A shut edge answers to nothing, and nothing to it") {
  Problem problem = little_scheme();
  problem.edges[8].closed = true;
  const Solution solution = solved_tightly(problem);
  const Sensitivity found = Sensitivities(problem, solution.state).of(aim_at_flow(8));
  REQUIRE(found.is_known);
  for (std::size_t i = 0; i < problem.edges.size(); ++i) {
    CHECK(found.by_residual[i] == 0.0);
  }
  const Sensitivity outlet = Sensitivities(problem, solution.state).of(aim_at_flow(7));
  CHECK(outlet.by_residual[8] == 0.0);
}

}  // namespace leat::nodal
