// A limit's two pieces: sharp, the one that holds counts alone; smoothed, both do.
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/nodal/residual.h"

namespace leat::tests {

using nodal::EdgeResidual;

namespace {

constexpr double scale_s_m2 = 1000.0;
constexpr double flow_m3_s = 0.002;
// Of a loss 40 q + 3e4 q^2: 0.08 + 0.12 m, and 40 + 120 s/m2.
constexpr nodal::Loss loss{0.2, 160.0};

EdgeResidual check_valve(double up_m, double down_m, double smoothing_m) {
  nodal::Edge edge;
  edge.kind = nodal::EdgeKind::OneWay;
  edge.up = 0;
  edge.down = 1;
  edge.has_loss = true;
  edge.opening_head_m = 0.3;
  return nodal::smoothed_residual(edge, flow_m3_s, up_m, down_m, loss, {scale_s_m2, smoothing_m});
}

}  // namespace

TEST_CASE("without smoothing a check valve that runs is a pipe and one that stands is shut") {
  // 11 - 8 - 0.3 - 0.2 = 2.5 m is more than -S q = -2 m: it runs.
  const EdgeResidual runs = check_valve(11.0, 8.0, 0.0);
  CHECK(runs.residual_m == Approx(2.5).epsilon(1e-14));
  CHECK(runs.by_flow_s_m2 == -160.0);
  CHECK(runs.by_head_up == 1.0);
  CHECK(runs.by_head_down == -1.0);
  // 8 - 11 - 0.5 = -3.5 m is less: it stands, and the heads say nothing.
  const EdgeResidual stands = check_valve(8.0, 11.0, 0.0);
  CHECK(stands.residual_m == Approx(-2.0).epsilon(1e-14));
  CHECK(stands.by_flow_s_m2 == -1000.0);
  CHECK(stands.by_head_up == 0.0);
  CHECK(stands.by_head_down == 0.0);
}

TEST_CASE("with smoothing a check valve feels both its pipe and its shutting") {
  // a + b + sqrt(a^2 + b^2 + 2 mu^2) of -2 and 2.5 m with mu = 2 m: 0.5 + sqrt(18.25).
  const EdgeResidual both = check_valve(11.0, 8.0, 2.0);
  CHECK(both.residual_m == Approx(0.5 + std::sqrt(18.25)).epsilon(1e-14));
  // Of the pipe's piece 1 + 2.5 / sqrt(18.25).
  CHECK(both.by_head_up == Approx(1.0 + 2.5 / std::sqrt(18.25)).epsilon(1e-14));
}

}  // namespace leat::tests
