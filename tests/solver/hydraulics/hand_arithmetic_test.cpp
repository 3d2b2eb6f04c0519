// Small sums done by hand, exact where the published tables are rounded.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"
#include "solver/hydraulics/head_loss.h"
#include "solver/hydraulics/pipe_rating.h"

namespace leat::hydraulics {
namespace {

TEST_CASE("the rating of a pipe is twice the stress over the ratio and one more or one less") {
  // 2 * 625 / (7 + 1) = 156.25 and 2 * 625 / (9 - 1) = 156.25.
  CHECK(in_psi(rating_by_inside(psi(625.0), 7.0)) == Approx(156.25).epsilon(1e-12));
  CHECK(in_psi(rating_by_outside(psi(625.0), 9.0)) == Approx(156.25).epsilon(1e-12));
}

TEST_CASE("a wide short pipe's creeping flow costs the least slope and no more") {
  // The length that gives a slope at rest of 6e-4 s/m2, by Poiseuille: 128 v L / (pi g D^4). The
  // steepened law is q sqrt(6e-4^2 + 8e-4^2) = 1e-3 q as long as the flow is laminar.
  constexpr double bore_m = 1.0;
  constexpr double viscosity_m2_s = 1e-6;
  const double length_m = 6e-4 * std::numbers::pi * 9.80665 / (128.0 * viscosity_m2_s);
  StretchLaw law;
  law.friction = darcy_weisbach(bore_m, length_m, 0.0, viscosity_m2_s);
  law.bore_m = bore_m;
  REQUIRE(law.friction.laminar_slope_s_m2 == Approx(6e-4).epsilon(1e-12));
  // Re = 4 q / (pi D v) is 1273 at 1 L/s.
  for (const double flow_m3_s : {-1e-3, -1e-5, 0.0, 1e-6, 1e-3}) {
    CAPTURE(flow_m3_s);
    CHECK(stretch_loss(law, flow_m3_s).loss_m == Approx(1e-3 * flow_m3_s).epsilon(1e-12));
    CHECK(stretch_loss(law, flow_m3_s).slope_s_m2 == Approx(1e-3).epsilon(1e-12));
  }
}

TEST_CASE("a law never told of any pipe costs nothing") {
  CHECK(friction_loss(FrictionLaw{}, 1e-3).loss_m == 0.0);
  const FrictionLaw fixed = fixed_factor(0.1, 10.0, 0.02);
  CHECK(fixed.laminar_slope_s_m2 == 0.0);
  // K = 0 in both directions, no foot valve: the friction alone. f L/D v^2/2g = 2 v^2/2g.
  StretchLaw law;
  law.friction = fixed;
  law.bore_m = 0.1;
  const double area_m2 = std::numbers::pi / 4.0 * 0.1 * 0.1;
  const double loss_m = 2.0 * 1.0 / (2.0 * 9.80665);
  CHECK(stretch_loss(law, area_m2).loss_m == Approx(loss_m).epsilon(1e-6));
  CHECK(stretch_loss(law, -area_m2).loss_m == Approx(-loss_m).epsilon(1e-6));
  CHECK(lifting_opening_head_m(0.1, LiftingLoss{}) == 0.0);
}

}  // namespace
}  // namespace leat::hydraulics
