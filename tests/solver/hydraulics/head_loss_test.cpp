#include "solver/hydraulics/head_loss.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"
#include "tests/support/derivative_check.h"

namespace leat::hydraulics {
namespace {

constexpr double bore_m = 0.0266;
constexpr double viscosity_15_C = 1.1386e-6;

FrictionLaw smooth_pipe(double length_m) {
  return darcy_weisbach(bore_m, length_m, 1.5e-6, viscosity_15_C);
}

StretchLaw stretch(const FrictionLaw& friction, double forward_k, double backward_k) {
  return {.friction = friction,
          .bore_m = friction.bore_m,
          .forward_k = forward_k,
          .backward_k = backward_k,
          .lifting = {}};
}

// Laws of every kind, some of them flat at rest without the least slope.
std::vector<StretchLaw> laws_of_all_kinds() {
  StretchLaw with_foot_valve = stretch(smooth_pipe(40.0), 1.5, 1.5);
  with_foot_valve.lifting = {{.loss_coefficient = 9.66, .lifting_flow_m3_s = 3.2e-4}};
  return {stretch(smooth_pipe(100.0), 0.0, 0.0),
          stretch(smooth_pipe(100.0), 1.5, 1.5),
          stretch(smooth_pipe(0.001), 0.0, 0.0),
          stretch(smooth_pipe(0.0), 9.66, 2.0),
          stretch(smooth_pipe(0.0), 0.0, 0.0),
          stretch(darcy_weisbach(1.5, 20.0, 1e-3, viscosity_15_C), 1.5, 1.5),
          stretch(fixed_factor(0.1, 700.0, 0.08), 0.0, 0.0),
          stretch(fixed_factor(1.5, 5000.0, 0.013958), 0.5, 1.0),
          stretch(hazen_williams(bore_m, 100.0, 140.0), 0.5, 1.0),
          with_foot_valve};
}

TEST_CASE("fittings cost K velocity heads, each direction its own") {
  const StretchLaw bare = stretch(smooth_pipe(100.0), 0.0, 0.0);
  const StretchLaw fitted = stretch(smooth_pipe(100.0), 2.5, 0.7);
  const double flow_m3_s = 5e-4;
  // v = 4 q / (pi D^2)
  const double speed_m_s = flow_m3_s / in_square_metres(bore_area(metres(bore_m)));
  const double velocity_head = speed_m_s * speed_m_s / (2.0 * 9.80665);
  CHECK(velocity_head_m(bore_m, flow_m3_s) == Approx(velocity_head).epsilon(1e-13));
  CHECK(stretch_loss(fitted, flow_m3_s).loss_m - stretch_loss(bare, flow_m3_s).loss_m ==
        Approx(2.5 * velocity_head).epsilon(1e-11));
  CHECK(stretch_loss(fitted, -flow_m3_s).loss_m - stretch_loss(bare, -flow_m3_s).loss_m ==
        Approx(-0.7 * velocity_head).epsilon(1e-11));
}

TEST_CASE("a siphon with every loss counted runs as a textbook says", "[reference]") {
  const std::string source =
      "reference E2.4: Douglas et al., Fluid Mechanics, Example 14.1 (inputs published, answer "
      "computed with g 9.81): 15 m of 100 mm, Darcy factor 0.32, entrance 0.5, fall 4 m: 1.2591 "
      "m/s with one velocity head left at the end";
  CAPTURE(source);
  const double area_m2 = in_square_metres(bore_area(metres(0.1)));
  const StretchLaw law = stretch(fixed_factor(0.1, 15.0, 0.32), 0.5 + 1.0, 0.5 + 1.0);
  const double textbook_gravity = 9.81 / gravity_m_s2;
  CHECK(stretch_loss(law, 1.2591 * area_m2).loss_m == Approx(4.0 * textbook_gravity).epsilon(1e-4));
}

TEST_CASE("a foot valve costs its full K once the water lifts it, its opening head below") {
  const LiftingLoss valve{.loss_coefficient = 9.66, .lifting_flow_m3_s = 3.2e-4};
  StretchLaw with_valve = stretch(smooth_pipe(40.0), 1.5, 1.5);
  with_valve.lifting = {valve};
  const StretchLaw without = stretch(smooth_pipe(40.0), 1.5, 1.5);
  const double opening_head_m = lifting_opening_head_m(bore_m, valve);
  CHECK(opening_head_m == Approx(9.66 * velocity_head_m(bore_m, 3.2e-4)).epsilon(1e-13));
  for (const double flow_m3_s : {1e-6, 1e-4, 3.1e-4, 3.3e-4, 5e-4, 1e-3}) {
    CAPTURE(flow_m3_s);
    const double lifted_at_m3_s = std::max(flow_m3_s, 3.2e-4);
    const double valve_cost_m = stretch_loss(with_valve, flow_m3_s).loss_m + opening_head_m -
                                stretch_loss(without, flow_m3_s).loss_m;
    CHECK(valve_cost_m == Approx(9.66 * velocity_head_m(bore_m, lifted_at_m3_s)).epsilon(1e-11));
    CHECK(stretch_loss(with_valve, -flow_m3_s).loss_m == stretch_loss(without, -flow_m3_s).loss_m);
  }
}

TEST_CASE("no stretch is flatter than the least slope at any flow", "[law]") {
  for (const StretchLaw& law : laws_of_all_kinds()) {
    CHECK(stretch_loss(law, 0.0).loss_m == 0.0);
    CHECK(stretch_loss(law, 0.0).slope_s_m2 >= least_slope_s_m2 * (1.0 - 1e-15));
    for (double flow_m3_s = 1e-200; flow_m3_s < 10.0; flow_m3_s *= flow_m3_s < 1e-12 ? 1e3 : 1.05) {
      CAPTURE(law.bore_m, law.friction.length_m, law.forward_k, flow_m3_s);
      REQUIRE(stretch_loss(law, flow_m3_s).slope_s_m2 >= least_slope_s_m2 * (1.0 - 1e-12));
      REQUIRE(stretch_loss(law, -flow_m3_s).slope_s_m2 >= least_slope_s_m2 * (1.0 - 1e-12));
    }
  }
}

TEST_CASE("the loss of a stretch rises strictly from backward to forward flow", "[law]") {
  for (const StretchLaw& law : laws_of_all_kinds()) {
    double last_forward_m = 0.0;
    double last_backward_m = 0.0;
    for (double flow_m3_s = 1e-12; flow_m3_s < 1.0; flow_m3_s *= 1.01) {
      CAPTURE(law.bore_m, law.friction.length_m, law.forward_k, flow_m3_s);
      const double forward_m = stretch_loss(law, flow_m3_s).loss_m;
      const double backward_m = stretch_loss(law, -flow_m3_s).loss_m;
      REQUIRE(forward_m > last_forward_m);
      REQUIRE(backward_m < last_backward_m);
      if (law.forward_k == law.backward_k && law.lifting.empty()) {
        REQUIRE(backward_m == -forward_m);
      }
      last_forward_m = forward_m;
      last_backward_m = backward_m;
    }
  }
}

TEST_CASE("the slope of every stretch is exact through rest and over the bridge", "[law]") {
  for (const StretchLaw& law : laws_of_all_kinds()) {
    test_support::DerivativeCheck check;
    check.greatest_flow_m3_s = 3.0;
    check.least_flow_m3_s = 1e-15;  // low enough to be in the linear part of every law
    if (law.friction.kind == FrictionLaw::Kind::DarcyWeisbach) {
      check.borders_m3_s = {2000.0 / law.friction.reynolds_per_flow,
                            4000.0 / law.friction.reynolds_per_flow};
    }
    CAPTURE(law.bore_m, law.friction.length_m, law.forward_k);
    const auto faults = test_support::derivative_faults(
        [&law](double flow_m3_s) { return stretch_loss(law, flow_m3_s); }, check);
    INFO(test_support::text_of(faults));
    CHECK(faults.empty());
  }
}

TEST_CASE("the least slope leaves the loss of a running textbook pipe alone", "[law]") {
  // The widest and shortest pipe of the reference cases (E1.2), where it weighs most.
  const StretchLaw law = stretch(fixed_factor(1.5, 5000.0, 0.013958), 0.0, 0.0);
  for (const double flow_m3_s : {0.5, 1.0, 2.11444}) {
    CAPTURE(flow_m3_s);
    CHECK(stretch_loss(law, flow_m3_s).loss_m ==
          Approx(friction_loss(law.friction, flow_m3_s).loss_m).epsilon(1e-5));
  }
}

}  // namespace
}  // namespace leat::hydraulics
