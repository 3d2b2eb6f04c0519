#include "solver/hydraulics/friction.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"
#include "tests/support/derivative_check.h"

namespace leat::hydraulics {
namespace {

// Water of 15 C and smooth pipe, as the reference tables take them.
constexpr double viscosity_15_C = 1.1386e-6;
constexpr double smooth_roughness_m = 1.5e-6;

// The flow [m3/s] whose loss is `loss_m`, by halving: losses rise with the flow.
double flow_of_loss(const FrictionLaw& law, double loss_m) {
  double low = 0.0;
  double high = 1.0;
  for (int i = 0; i < 200; ++i) {
    const double middle = 0.5 * (low + high);
    (friction_loss(law, middle).loss_m < loss_m ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

double feet_per_100_feet(const FrictionLaw& law_of_100_ft, double gallons_per_minute) {
  const double flow_m3_s = in_cubic_metres_per_second(us_gallons_per_minute(gallons_per_minute));
  return in_feet(metres(friction_loss(law_of_100_ft, flow_m3_s).loss_m));
}

struct FactorRow {
  std::string source;
  double reynolds;
  double relative_roughness;
  double factor;
};

const std::string table_a1 =
    "reference table A1, Colebrook-White column (Colebrook 1939), computed with python3-fluids "
    "1.0.22";

TEST_CASE("turbulent friction factors are Colebrook and White's", "[reference]") {
  const auto row = GENERATE(values<FactorRow>({
      {table_a1, 4000.0, 0.0, 0.03990701},
      {table_a1, 1e4, 0.0, 0.03088295},
      {table_a1, 1e5, 0.0, 0.01798977},
      {table_a1, 1e6, 0.0, 0.01164504},
      {table_a1, 1e7, 0.0, 0.00810267},
      {table_a1, 1e4, 0.001, 0.03238181},
      {table_a1, 2e4, 0.002, 0.02978835},
      {table_a1, 5e4, 0.0015, 0.02532148},
      {table_a1, 1e5, 0.0001, 0.01851387},
      {table_a1, 1e5, 0.001, 0.02217454},
      {table_a1, 1e5, 0.01, 0.03850354},
      {table_a1, 1e6, 0.001, 0.01994347},
      {table_a1, 1e8, 0.05, 0.07155090},
  }));
  CAPTURE(row.source, row.reynolds, row.relative_roughness);
  CHECK(colebrook_friction_factor(row.reynolds, row.relative_roughness) ==
        Approx(row.factor).epsilon(1e-6));
}

TEST_CASE("friction loss in a pipe holds the published friction factor", "[reference]") {
  const std::string laminar = "reference table A1, rows A1.1 and A1.2: 64/Re";
  const auto row = GENERATE_COPY(values<FactorRow>({
      {laminar, 1000.0, 0.0, 0.064},
      {laminar, 1000.0, 0.05, 0.064},
      {laminar, 2000.0, 0.0, 0.032},
      {table_a1, 4000.0, 0.0, 0.03990701},
      {table_a1, 1e5, 0.001, 0.02217454},
  }));
  CAPTURE(row.source, row.reynolds, row.relative_roughness);
  const double bore_m = 0.03;
  const double length_m = 70.0;
  const FrictionLaw law =
      darcy_weisbach(bore_m, length_m, row.relative_roughness * bore_m, viscosity_15_C);
  const double speed_m_s = row.reynolds * viscosity_15_C / bore_m;
  const double flow_m3_s = speed_m_s * std::numbers::pi / 4.0 * bore_m * bore_m;
  const double expected_m =
      row.factor * length_m / bore_m * speed_m_s * speed_m_s / (2.0 * gravity_m_s2);
  CHECK(friction_loss(law, flow_m3_s).loss_m == Approx(expected_m).epsilon(1e-6));
}

TEST_CASE("Colebrook and White's equation is solved to rounding over the whole range", "[law]") {
  using Precise = long double;
  double worst = 0.0;
  for (double reynolds = 2000.0; reynolds < 1e9; reynolds *= 1.3) {
    for (const double roughness : {0.0, 1e-8, 1e-6, 1e-5, 1e-4, 1e-3, 0.005, 0.01, 0.03, 0.1}) {
      const auto factor = static_cast<Precise>(colebrook_friction_factor(reynolds, roughness));
      const Precise root = 1.0L / std::sqrt(factor);
      const Precise per_root = 2.51L / static_cast<Precise>(reynolds);
      const Precise inside = static_cast<Precise>(roughness) / 3.7L + per_root * root;
      const Precise residual = root + 2.0L * std::log10(inside);
      const Precise slope = 1.0L + 2.0L / std::numbers::ln10_v<Precise> * per_root / inside;
      // f goes as the root to the power -2.
      worst = std::max(worst, static_cast<double>(2.0L * std::abs(residual / slope / root)));
    }
  }
  CHECK(worst < 1e-13);
}

TEST_CASE("60 m of 1 in pipe under 4 m of fall carries the published flow", "[reference]") {
  const std::string source =
      "reference A1.16: exact Colebrook root 0.67216 L/s, explicit form of Swamee and Jain 1976 "
      "0.67205 L/s, tolerance 0.5 % between the two, computed";
  CAPTURE(source);
  const FrictionLaw law = darcy_weisbach(0.026645, 60.0, smooth_roughness_m, viscosity_15_C);
  const double flow_L_s = 1e3 * flow_of_loss(law, 4.0);
  // The bore is printed to 0.001 mm and the flow goes as its power 2.7, which leaves 5e-5 of doubt
  // (1.049 in, of which it is the rounding, gives 0.67216).
  CHECK(flow_L_s == Approx(0.67216).epsilon(5e-5).margin(0.0));
  const FrictionLaw unrounded =
      darcy_weisbach(in_metres(inches(1.049)), 60.0, smooth_roughness_m, viscosity_15_C);
  CHECK(1e3 * flow_of_loss(unrounded, 4.0) == Approx(0.67216).epsilon(0.0).margin(6e-6));
  CHECK(flow_L_s == Approx(0.67205).epsilon(5e-3));
}

struct PrintedLossRow {
  std::string source;
  double bore_in;
  double flow_gpm;
  double loss_ft_per_100_ft;
};

TEST_CASE("Hazen-Williams with C 150 gives a state's printed loss table", "[reference]") {
  const std::string source =
      "reference A2.1: Illinois Administrative Code, Title 77 Part 906, Appendix A, Exhibit I; "
      "1 % in 1 in pipe, 6 % in the others, cells under 0.10 left out";
  const auto row = GENERATE_COPY(values<PrintedLossRow>({
      {source, 1.049, 2.0, 0.28},  {source, 1.049, 4.0, 1.01},  {source, 1.049, 5.0, 1.52},
      {source, 1.049, 6.0, 2.14},  {source, 1.049, 8.0, 3.63},  {source, 1.049, 10.0, 5.50},
      {source, 1.380, 4.0, 0.25},  {source, 1.380, 5.0, 0.39},  {source, 1.380, 6.0, 0.55},
      {source, 1.380, 8.0, 0.97},  {source, 1.380, 10.0, 1.46}, {source, 1.380, 12.0, 2.09},
      {source, 1.380, 15.0, 3.06}, {source, 1.380, 20.0, 5.23}, {source, 1.610, 4.0, 0.12},
      {source, 1.610, 5.0, 0.18},  {source, 1.610, 6.0, 0.25},  {source, 1.610, 8.0, 0.46},
      {source, 1.610, 10.0, 0.70}, {source, 1.610, 12.0, 1.01}, {source, 1.610, 15.0, 1.45},
      {source, 1.610, 20.0, 2.46}, {source, 2.067, 8.0, 0.14},  {source, 2.067, 10.0, 0.21},
      {source, 2.067, 12.0, 0.30}, {source, 2.067, 15.0, 0.44}, {source, 2.067, 20.0, 0.74},
  }));
  CAPTURE(row.source, row.bore_in, row.flow_gpm);
  const FrictionLaw law =
      hazen_williams(in_metres(inches(row.bore_in)), in_metres(feet(100.0)), 150.0);
  const double tolerance = row.bore_in < 1.1 ? 0.01 : 0.06;
  CHECK(feet_per_100_feet(law, row.flow_gpm) == Approx(row.loss_ft_per_100_ft).epsilon(tolerance));
}

struct ComputedLossRow {
  double bore_in;
  double flow_gpm;
  double speed_ft_s;
  double reynolds;
  double loss_c_150;
  double loss_c_140;
  double loss_darcy;
};

TEST_CASE("polyethylene pipe loses what three laws were computed to say", "[reference]") {
  const std::string source =
      "reference A2.2, computed: Hazen-Williams 150 and 140, Darcy at 15 C with 0.0015 mm; "
      "ft per 100 ft, tolerance from the printed digits";
  const auto row = GENERATE(values<ComputedLossRow>({
      {0.824, 2.0, 1.20, 6742.0, 0.903, 1.026, 1.129},
      {0.824, 4.0, 2.41, 13483.0, 3.260, 3.704, 3.762},
      {0.824, 6.0, 3.61, 20225.0, 6.907, 7.848, 7.659},
      {0.824, 8.0, 4.81, 26967.0, 11.767, 13.371, 12.722},
      {0.824, 10.0, 6.02, 33709.0, 17.788, 20.213, 18.890},
      {1.049, 2.0, 0.74, 5296.0, 0.279, 0.317, 0.361},
      {1.049, 4.0, 1.48, 10591.0, 1.006, 1.143, 1.196},
      {1.049, 6.0, 2.23, 15887.0, 2.131, 2.422, 2.427},
      {1.049, 10.0, 3.71, 26478.0, 5.489, 6.237, 5.961},
      {1.049, 15.0, 5.57, 39718.0, 11.631, 13.216, 12.228},
      {1.380, 4.0, 0.86, 8051.0, 0.264, 0.301, 0.326},
      {1.380, 6.0, 1.29, 12076.0, 0.560, 0.637, 0.660},
      {1.380, 10.0, 2.15, 20127.0, 1.443, 1.640, 1.613},
      {1.380, 20.0, 4.29, 40255.0, 5.211, 5.921, 5.490},
      {1.610, 6.0, 0.95, 10351.0, 0.265, 0.301, 0.318},
      {1.610, 10.0, 1.58, 17252.0, 0.681, 0.774, 0.774},
      {1.610, 20.0, 3.15, 34504.0, 2.460, 2.795, 2.628},
      {2.067, 10.0, 0.96, 13438.0, 0.202, 0.229, 0.236},
      {2.067, 20.0, 1.91, 26876.0, 0.728, 0.828, 0.798},
  }));
  CAPTURE(source, row.bore_in, row.flow_gpm);
  const double bore_m = in_metres(inches(row.bore_in));
  const double length_m = in_metres(feet(100.0));
  const FrictionLaw darcy = darcy_weisbach(bore_m, length_m, smooth_roughness_m, viscosity_15_C);
  const auto printed = [](double value) { return Approx(value).epsilon(0.0).margin(0.00051); };
  CHECK(feet_per_100_feet(hazen_williams(bore_m, length_m, 150.0), row.flow_gpm) ==
        printed(row.loss_c_150));
  CHECK(feet_per_100_feet(hazen_williams(bore_m, length_m, 140.0), row.flow_gpm) ==
        printed(row.loss_c_140));
  CHECK(feet_per_100_feet(darcy, row.flow_gpm) == printed(row.loss_darcy));

  const double flow_m3_s = in_cubic_metres_per_second(us_gallons_per_minute(row.flow_gpm));
  const double speed_m_s = flow_m3_s / in_square_metres(bore_area(metres(bore_m)));
  CHECK(in_feet(metres(speed_m_s)) == Approx(row.speed_ft_s).epsilon(0.0).margin(0.0051));
  CHECK(darcy.reynolds_per_flow * flow_m3_s == Approx(row.reynolds).epsilon(0.0).margin(0.51));
}

TEST_CASE("10 gal/min in 1-1/4 in polyethylene loses what a factsheet prints", "[reference]") {
  const std::string source =
      "reference A2.3a: BC Ministry of Agriculture and Lands, Factsheet 590.304-5 (Jan 2006), 0.72 "
      "psi/100 ft = 1.66 ft/100 ft, tolerance 2 %";
  CAPTURE(source);
  const FrictionLaw law = hazen_williams(in_metres(inches(1.380)), in_metres(feet(100.0)), 140.0);
  CHECK(feet_per_100_feet(law, 10.0) == Approx(1.66).epsilon(0.02));
  CHECK(feet_per_100_feet(law, 10.0) * 0.433527504 == Approx(0.72).epsilon(0.02));
}

TEST_CASE("10 ft of fall in 1000 ft of 3/4 in pipe brings what a guide prints", "[reference]") {
  const std::string source =
      "reference A2.3b: NMSU Guide B-810, Example A, about 1.8 gal/min, tolerance 8 %; Darcy at "
      "15 C computed as 1.864 gal/min";
  CAPTURE(source);
  const FrictionLaw law = darcy_weisbach(
      in_metres(inches(0.824)), in_metres(feet(1000.0)), smooth_roughness_m, viscosity_15_C);
  const Flow flow = cubic_metres_per_second(flow_of_loss(law, in_metres(feet(10.0))));
  CHECK(in_us_gallons_per_minute(flow) == Approx(1.8).epsilon(0.08));
  CHECK(in_us_gallons_per_minute(flow) == Approx(1.864).epsilon(0.0).margin(0.0006));
}

FrictionLaw farm_pipe(double relative_roughness) {
  constexpr double bore_m = 0.0266;
  return darcy_weisbach(bore_m, 100.0, relative_roughness * bore_m, viscosity_15_C);
}

TEST_CASE("friction takes no step and no knee at Re 2000 and 4000", "[law]") {
  for (const double roughness : {0.0, 5.6e-5, 1e-3, 0.01, 0.05}) {
    const FrictionLaw law = farm_pipe(roughness);
    for (const double reynolds : {2000.0, 4000.0}) {
      CAPTURE(roughness, reynolds);
      const double border_m3_s = reynolds / law.reynolds_per_flow;
      const LossAndSlope below = friction_loss(law, border_m3_s * (1.0 - 1e-12));
      const LossAndSlope above = friction_loss(law, border_m3_s * (1.0 + 1e-12));
      CHECK(above.loss_m == Approx(below.loss_m).epsilon(1e-11));
      CHECK(above.slope_s_m2 == Approx(below.slope_s_m2).epsilon(1e-10));
    }
  }
}

TEST_CASE("friction grows strictly and at least as fast as the flow, in any roughness", "[law]") {
  for (int hundredth = 0; hundredth <= 100; ++hundredth) {
    const double roughness = 0.0005 * hundredth;
    const FrictionLaw law = farm_pipe(roughness);
    double last_loss_m = 0.0;
    for (double reynolds = 1500.0; reynolds < 5000.0; reynolds += 2.5) {
      CAPTURE(roughness, reynolds);
      const double flow_m3_s = reynolds / law.reynolds_per_flow;
      const LossAndSlope now = friction_loss(law, flow_m3_s);
      REQUIRE(now.loss_m > last_loss_m);
      REQUIRE(now.slope_s_m2 >= now.loss_m / flow_m3_s * (1.0 - 1e-12));
      last_loss_m = now.loss_m;
    }
  }
}

TEST_CASE("water that turns round loses the same the other way", "[law]") {
  for (const FrictionLaw& law :
       {farm_pipe(1e-3), fixed_factor(0.1, 700.0, 0.08), hazen_williams(0.0266, 100.0, 140.0)}) {
    CHECK(friction_loss(law, 0.0).loss_m == 0.0);
    for (double flow_m3_s = 1e-9; flow_m3_s < 0.1; flow_m3_s *= 1.1) {
      CAPTURE(flow_m3_s);
      const LossAndSlope forward = friction_loss(law, flow_m3_s);
      const LossAndSlope backward = friction_loss(law, -flow_m3_s);
      REQUIRE(forward.loss_m > 0.0);
      REQUIRE(backward.loss_m == -forward.loss_m);
      REQUIRE(backward.slope_s_m2 == forward.slope_s_m2);
    }
  }
}

TEST_CASE("the slope of Darcy-Weisbach friction is exact through rest and over the bridge",
          "[law]") {
  const double roughness = GENERATE(0.0, 5.6e-5, 1e-3, 0.01, 0.05);
  CAPTURE(roughness);
  const FrictionLaw law = farm_pipe(roughness);
  test_support::DerivativeCheck check;
  check.borders_m3_s = {2000.0 / law.reynolds_per_flow, 4000.0 / law.reynolds_per_flow};
  const auto faults = test_support::derivative_faults(
      [&law](double flow_m3_s) { return friction_loss(law, flow_m3_s); }, check);
  INFO(test_support::text_of(faults));
  CHECK(faults.empty());
}

TEST_CASE("the slopes of fixed-factor and Hazen-Williams friction are exact", "[law]") {
  for (const FrictionLaw& law :
       {fixed_factor(0.1, 700.0, 0.08), hazen_williams(0.0266, 100.0, 140.0)}) {
    const auto faults = test_support::derivative_faults(
        [&law](double flow_m3_s) { return friction_loss(law, flow_m3_s); }, {});
    INFO(test_support::text_of(faults));
    CHECK(faults.empty());
  }
}

TEST_CASE("a fixed friction factor gives a textbook's loss", "[reference]") {
  const std::string source =
      "reference E1.1: Douglas et al., Fluid Mechanics, Example 14.4 (inputs published, answer "
      "computed with g 9.81): 120 m of 120 mm, Darcy factor 0.04, 0.020588 m3/s lose 6.7562 m";
  CAPTURE(source);
  const FrictionLaw law = fixed_factor(0.120, 120.0, 0.04);
  const double textbook_gravity = 9.81 / gravity_m_s2;
  CHECK(friction_loss(law, 0.020588).loss_m == Approx(6.7562 * textbook_gravity).epsilon(5e-4));
}

TEST_CASE("a pipe of no length loses nothing at any flow") {
  const FrictionLaw law = darcy_weisbach(0.0266, 0.0, smooth_roughness_m, viscosity_15_C);
  for (const double reynolds : {0.0, 1000.0, 2000.0, 3000.0, 4000.0, 1e5}) {
    CAPTURE(reynolds);
    CHECK(friction_loss(law, reynolds / law.reynolds_per_flow).loss_m == 0.0);
    CHECK(friction_loss(law, reynolds / law.reynolds_per_flow).slope_s_m2 == 0.0);
  }
}

}  // namespace
}  // namespace leat::hydraulics
