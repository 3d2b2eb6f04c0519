// On random farms: a draw solved from the base answer is the draw solved from nothing, and what a
// transposed solve says a number is worth is what solving again shows.
#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/flow/place_answers.h"
#include "solver/nodal/residual.h"
#include "solver/steady/steady.h"
#include "solver/uncertainty/sample_solver.h"
#include "solver/uncertainty/sampled_farm.h"
#include "solver/uncertainty/sensitivities.h"
#include "tests/support/farms_asked.h"
#include "tests/support/random_farm.h"

namespace leat::solver {

namespace {

/// Farms a test takes: 1 000, or as many as LEAT_FARMS asks for, when asked by name; else a few.
std::uint64_t farms_of(std::uint64_t few) {
  return tests::farms_asked_by_name() ? std::min<std::uint64_t>(tests::farms_asked(), 100000) : few;
}

nodal::State solved_tightly(const nodal::Problem& problem, const nodal::State& near) {
  nodal::SolveOptions how;
  how.head_tolerance_m = 1e-11;
  const nodal::Solution solution = nodal::NodalSolver(problem).solve(problem, how, &near);
  REQUIRE(solution.report.is_usable());
  return solution.state;
}

double value_of(const nodal::Aim& aim, const nodal::State& state) {
  double sum = 0.0;
  for (const nodal::Aim::Term& term : aim.flows) {
    sum += term.weight * state.flow_m3_s[term.index];
  }
  for (const nodal::Aim::Term& term : aim.heads) {
    sum += term.weight * state.head_m[term.index];
  }
  return sum;
}

/// Whether some limit just acts or just lets go: two pieces of an edge's equation hold at once, so
/// that a hair of smoothing changes its derivatives.
bool stands_at_a_kink(const nodal::Problem& problem, const nodal::State& state) {
  for (std::size_t i = 0; i < problem.edges.size(); ++i) {
    const nodal::Edge& edge = problem.edges[i];
    const double up = edge.up == nodal::outside ? 0.0 : state.head_m[edge.up];
    const double down = edge.down == nodal::outside ? 0.0 : state.head_m[edge.down];
    if (edge.closed || std::isnan(up) || std::isnan(down)) {
      continue;
    }
    const double flow = state.flow_m3_s[i];
    const nodal::Loss loss = nodal::edge_loss(problem, i, flow);
    const nodal::EdgeResidual exact =
        nodal::smoothed_residual(edge, flow, up, down, loss, {1e5, 0.0});
    const nodal::EdgeResidual smooth =
        nodal::smoothed_residual(edge, flow, up, down, loss, {1e5, 1e-5});
    const auto gain = [](const nodal::EdgeResidual& residual, double by_head) {
      return by_head / (std::abs(residual.by_flow_s_m2) + std::abs(by_head));
    };
    if (std::abs(gain(exact, exact.by_head_up) - gain(smooth, smooth.by_head_up)) > 1e-6 ||
        std::abs(gain(exact, exact.by_head_down) - gain(smooth, smooth.by_head_down)) > 1e-6) {
      return true;
    }
  }
  return false;
}

/// What solving again shows: a central difference, and whether it can be trusted to a few
/// millionths (a second one with half the step agrees: no kink lies between).
struct Shown {
  double slope = 0.0;
  bool is_smooth = false;
};

class Resolver {
 public:
  explicit Resolver(const FlowState& state) : state_(&state), changed_(*state.farm) {}

  Shown slope_of(const nodal::Aim& aim, const FarmInput& input) {
    const double step = is_level(input.kind) ? 2e-3 : 1e-3;
    const double wide = difference(aim, input, step);
    const double narrow = difference(aim, input, 0.5 * step);
    const double forward = value_at(aim, input, 0.5 * step) - value_of(aim, state_->solution.state);
    set_input(changed_, *state_->farm, input, 0.0);
    // Richardson: what the step leaves out goes as its square.
    const double best = narrow + (narrow - wide) / 3.0;
    const double agree = 3e-5 * std::abs(best) + 1e-12;
    // Where the two sides differ a limit lets go in between.
    const double one_sided = std::abs(forward / (0.5 * step) - best);
    const bool has_one_slope = one_sided <= 0.01 * std::abs(best) + 1e-12;
    return {best, same_shape_ && has_one_slope && std::abs(narrow - wide) <= agree};
  }

 private:
  double difference(const nodal::Aim& aim, const FarmInput& input, double step) {
    return (value_at(aim, input, step) - value_at(aim, input, -step)) / (2.0 * step);
  }

  double value_at(const nodal::Aim& aim, const FarmInput& input, double amount) {
    set_input(changed_, *state_->farm, input, amount);
    Surroundings around = state_->surroundings;
    around.air_pressure_Pa = surroundings_of(changed_, state_->options.month).air_pressure_Pa;
    const auto network = network_of(changed_, around, state_->options);
    same_shape_ = network->problem.edges.size() == state_->network->problem.edges.size();
    if (!same_shape_) {
      return 0.0;
    }
    return value_of(aim, solved_tightly(network->problem, state_->solution.state));
  }

  const FlowState* state_;
  model::Farm changed_;
  bool same_shape_ = true;
};

}  // namespace

TEST_CASE("What a farm's numbers are worth is what solving again shows, away from kinks") {
  int compared = 0;
  int at_kinks = 0;
  int farms_at_kinks = 0;
  int within_millionth = 0;
  double worst = 0.0;
  for (std::uint64_t seed = 1; seed <= farms_of(60); ++seed) {
    const auto kind = seed % 2 == 0 ? tests::FarmKind::Everything : tests::FarmKind::Prototype;
    const model::Farm farm = tests::random_farm(seed, kind);
    if (farm.places.size() > 40) {
      continue;
    }
    FlowState state = solve_flow(farm, surroundings_of(farm, std::nullopt), {});
    if (!state.solution.report.is_usable()) {
      continue;
    }
    state.solution.state = solved_tightly(state.network->problem, state.solution.state);
    if (stands_at_a_kink(state.network->problem, state.solution.state)) {
      ++farms_at_kinks;
      continue;
    }
    FarmSensitivities sensitivities(state);
    Resolver resolver(state);
    // The pipe that carries most, and one input in seven, others from farm to farm.
    std::size_t pipe = 0;
    for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
      pipe = std::abs(state.pipe_flow_m3_s(i)) > std::abs(state.pipe_flow_m3_s(pipe)) ? i : pipe;
    }
    const nodal::Aim aim = nodal::aim_at_flow(state.network->pipes[pipe].stretch_edge.front());
    const double flow = std::abs(value_of(aim, state.solution.state));
    const std::vector<InputSensitivity> found = sensitivities.of(aim);
    if (flow < 1e-6) {
      continue;
    }
    REQUIRE(found.size() == inputs_of(farm, std::nullopt).size());
    for (std::size_t i = seed % 7; i < found.size(); i += 7) {
      if (found[i].input.kind == InputKind::ValveOpening && found[i].value > 0.99) {
        continue;  // opens no further: one-sided
      }
      const Shown shown = resolver.slope_of(aim, found[i].input);
      if (!shown.is_smooth) {
        ++at_kinks;
        continue;
      }
      ++compared;
      INFO("seed " << seed << ", " << name_of(farm, found[i].input));
      // Beside a leg without any water (held by 1e-12 on the diagonal alone) rounding leaves up to
      // 1.2e-5 of the flow where the slope is nothing (6 of 10 000 derivatives).
      const double allowed = 1e-5 * std::abs(shown.slope) + 2e-5 * flow;
      within_millionth +=
          std::abs(found[i].by_amount - shown.slope) <= 1e-5 * std::abs(shown.slope) + 1e-7 * flow
              ? 1
              : 0;
      INFO("stated " << found[i].by_amount / flow << ", shown " << shown.slope / flow
                     << " of the flow");
      CHECK(std::abs(found[i].by_amount - shown.slope) / allowed <= 1.0);
      if (std::abs(shown.slope) > 1e-2 * flow) {
        worst = std::max(worst, std::abs(found[i].by_amount / shown.slope - 1.0));
      }
    }
  }
  CHECK(compared - within_millionth <= compared / 1000);
  CHECK(compared > 20 * at_kinks);
  CHECK(compared > 100);
  if (tests::farms_asked_by_name()) {
    WARN(compared << " derivatives compared, " << at_kinks << " at kinks and " << farms_at_kinks
                  << " farms left out, worst " << worst);
  }
}

TEST_CASE("A draw solved from the answer as written is that draw solved from nothing") {
  int quick = 0;
  int slow = 0;
  double worst = 0.0;
  for (std::uint64_t seed = 1; seed <= farms_of(60); ++seed) {
    const auto kind = seed % 2 == 0 ? tests::FarmKind::Everything : tests::FarmKind::Prototype;
    const model::Farm farm = tests::random_farm(seed, kind);
    if (farm.places.size() > 40) {
      continue;
    }
    const SpreadBase base = spread_base(farm, {}, seed);
    if (!base.start.solution.report.is_usable()) {
      continue;
    }
    DrawSolver solver(base);
    for (std::uint64_t draw = 0; draw < 4; ++draw) {
      const DrawnAnswer warm = solver.solve(draw);
      const DrawnAnswer cold = solver.solve_from_nothing(draw);
      INFO("seed " << seed << ", draw " << draw);
      if (warm.way != DrawnAnswer::Way::Quick) {
        ++slow;
        continue;
      }
      REQUIRE(cold.way == DrawnAnswer::Way::Slow);
      ++quick;
      double largest = 0.0;
      for (const double delivered : cold.delivered_m3_s) {
        largest = std::max(largest, std::abs(delivered));
      }
      for (std::size_t place = 0; place < farm.places.size(); ++place) {
        const double off = std::abs(warm.delivered_m3_s[place] - cold.delivered_m3_s[place]);
        CHECK(off <= 1e-7 * std::max(largest, 1e-4));
        worst = std::max(worst, off / std::max(largest, 1e-4));
      }
      CHECK(warm.parts == cold.parts);
      CHECK(warm.need_m3_s == cold.need_m3_s);
    }
  }
  CHECK(quick > 60);
  if (tests::farms_asked_by_name()) {
    WARN(quick << " quick draws, " << slow << " slow ones, worst " << worst);
  }
}

}  // namespace leat::solver
