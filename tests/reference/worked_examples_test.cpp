// Worked examples of the textbooks, each solved as a whole farm: reservoirs are creeks, junctions
// are tees. Sources and figures: reference-values.md, sections A2.3, E1, E3 and E8 (E2 stands in
// siphon_examples_test.cpp). "V" read in the named source, "C" worked out from its inputs there,
// "M" from memory of it.
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "model/quantity/quantity.h"
#include "solver/hydraulics/water.h"
#include "tests/support/book_farm.h"

namespace leat::tests {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double book_gravity_m_s2 = 9.81;

/// Darcy's f of a book's loss = r Q^2, in our gravity.
double friction_factor_of(double r_s2_m5, double length_m, double bore_m) {
  return r_s2_m5 * pi * pi * gravity_m_s2 * std::pow(bore_m, 5) / (8.0 * length_m);
}

/// The temperature at which water has that viscosity, by bisection (it falls as water warms).
double celsius_of_viscosity(double viscosity_m2_s) {
  double cold = 0.0;
  double warm = 40.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (cold + warm);
    const bool too_cold =
        hydraulics::water_at(celsius(middle)).kinematic_viscosity_m2_s > viscosity_m2_s;
    (too_cold ? cold : warm) = middle;
  }
  return 0.5 * (cold + warm);
}

}  // namespace

TEST_CASE("one creek feeds two lower ones through a junction as Douglas has it", "[reference]") {
  const std::string law = "friction factor: 0.04";
  const SolvedFarm farm = solved_book(BookFarm{{{"A", 100.0}, {"B", 84.0}, {"C", 76.0}},
                                               {{"J", 80.0}},
                                               {{"one", "A", "J", 120.0, 0.120, law},
                                                {"two", "J", "B", 60.0, 0.075, law},
                                                {"three", "J", "C", 40.0, 0.060, law}}});
  const std::string source =
      "E1.1 Douglas, Gasiorek, Swaffield, Fluid Mechanics, Ex. 14.4 (FOSSEE book 557): V inputs, C";
  check({{"Q1", 0.020588, flow_of(farm, "one"), 5e-4, source},
         {"Q2", 0.010517, flow_of(farm, "two"), 5e-4, source},
         {"Q3", 0.010071, flow_of(farm, "three"), 5e-4, source},
         {"V1", 1.8204, farm.pipe("one").velocity_m_s, 5e-4, source},
         {"V2", 2.3807, farm.pipe("two").velocity_m_s, 5e-4, source},
         {"V3", 3.5619, farm.pipe("three").velocity_m_s, 5e-4, source},
         {"loss in pipe 1", 6.7562, farm.pipe("one").head_loss_m.value(), 5e-4, source}});
}

TEST_CASE("three creeks meet at the printed junction head", "[reference]") {
  const auto law = [](double r, double length_m, double bore_m) {
    return fmt::format("friction factor: {}", friction_factor_of(r, length_m, bore_m));
  };
  const SolvedFarm farm =
      solved_book(BookFarm{{{"A", 135.0}, {"B", 120.0}, {"C", 112.0}},
                           {{"J", 118.0}},
                           {{"one", "A", "J", 5000.0, 1.5, law(0.7594, 5000.0, 1.5)},
                            {"two", "J", "B", 800.0, 0.5, law(36.33, 800.0, 0.5)},
                            {"three", "J", "C", 1500.0, 0.75, law(8.168, 1500.0, 0.75)}}});
  const std::string exact = "E1.2 FOSSEE book 1962, Ex. 9.12 (p. 340): V inputs, C exact";
  const std::string printed = "E1.2 FOSSEE book 1962, Ex. 9.12 (p. 340): V printed";
  check({{"junction, exact", 131.6048, farm.place("J").head_m.value(), 1e-6, exact},
         {"Q1, exact", 2.11444, flow_of(farm, "one"), 1e-4, exact},
         {"Q2, exact", 0.56518, flow_of(farm, "two"), 1e-4, exact},
         {"Q3, exact", 1.54926, flow_of(farm, "three"), 1e-4, exact},
         {"junction, printed", 131.6, farm.place("J").head_m.value(), 2e-3, printed},
         {"Q1, printed", 2.116, flow_of(farm, "one"), 2e-3, printed},
         {"Q2, printed", 0.565, flow_of(farm, "two"), 2e-3, printed},
         {"Q3, printed", 1.549, flow_of(farm, "three"), 2e-3, printed}});
}

TEST_CASE("Massey's branching line gives its junction head and flows", "[reference]") {
  // h = f l Q^2 / (3 d^5) with f = 0.01 is Darcy's law with f pi^2 g / 24.
  const std::string law = fmt::format("friction factor: {}", 0.01 * pi * pi * gravity_m_s2 / 24.0);
  const SolvedFarm farm = solved_book(BookFarm{{{"A", 60.0}, {"B", 30.0}, {"C", 15.0}},
                                               {{"J", 20.0}},
                                               {{"one", "A", "J", 1500.0, 0.300, law},
                                                {"two", "J", "B", 800.0, 0.250, law},
                                                {"three", "J", "C", 400.0, 0.200, law}}});
  const std::string source = "E1.4 Massey type: V inputs, C";
  check({{"junction", 34.7767, farm.place("J").head_m.value(), 1e-5, source},
         {"Q1", 0.11072, flow_of(farm, "one"), 1e-4, source},
         {"Q2", 0.04182, flow_of(farm, "two"), 2e-4, source},
         {"Q3", 0.06889, flow_of(farm, "three"), 1e-4, source}});
}

namespace {

/// White's three rough pipes, and the fall of 150 kPa and 5 m that drives them.
struct WhitePipe {
  double length_m;
  double bore_m;
  double roughness_mm;
};
const std::vector<WhitePipe> white_pipes = {
    {100.0, 0.08, 0.24}, {150.0, 0.06, 0.12}, {80.0, 0.04, 0.20}};
constexpr double white_fall_m = 150e3 / (1000.0 * book_gravity_m_s2) + 5.0;

std::string white_site() {
  return fmt::format("{{water: {} C}}", celsius_of_viscosity(1.02e-6));
}

BookPipe white_pipe(std::size_t index, const std::string& from, const std::string& to) {
  const WhitePipe& pipe = white_pipes.at(index);
  return {fmt::format("pipe {}", index + 1),
          from,
          to,
          pipe.length_m,
          pipe.bore_m,
          fmt::format("roughness: {} mm", pipe.roughness_mm)};
}

}  // namespace

TEST_CASE("White's three pipes in series carry what he prints", "[reference]") {
  const SolvedFarm farm = solved_book(BookFarm{{{"upper", 100.0 + white_fall_m}, {"lower", 100.0}},
                                               {{"first", 90.0}, {"second", 90.0}},
                                               {white_pipe(0, "upper", "first"),
                                                white_pipe(1, "first", "second"),
                                                white_pipe(2, "second", "lower")},
                                               white_site()});
  const std::string source = "E3.1 White, Fluid Mechanics, Ex. 6.16: M printed 10.22, C 10.221";
  check({{"Q, m3/h", 10.22, 3600.0 * flow_of(farm, "pipe 1"), 3e-3, source},
         {"the same at the end", 10.22, 3600.0 * flow_of(farm, "pipe 3"), 3e-3, source}});
}

TEST_CASE("White's three pipes side by side share the water as he prints", "[reference]") {
  const SolvedFarm farm = solved_book(BookFarm{{{"upper", 100.0 + white_fall_m}, {"lower", 100.0}},
                                               {},
                                               {white_pipe(0, "upper", "lower"),
                                                white_pipe(1, "upper", "lower"),
                                                white_pipe(2, "upper", "lower")},
                                               white_site()});
  const std::string source =
      "E3.2 White, Fluid Mechanics, Ex. 6.17: M printed 62.5, 25.9, 11.4, 99.8; C to two places";
  const double first = 3600.0 * flow_of(farm, "pipe 1");
  const double second = 3600.0 * flow_of(farm, "pipe 2");
  const double third = 3600.0 * flow_of(farm, "pipe 3");
  check({{"pipe 1, m3/h", 62.53, first, 3e-3, source},
         {"pipe 2, m3/h", 25.90, second, 3e-3, source},
         {"pipe 3, m3/h", 11.41, third, 3e-3, source},
         {"all, m3/h", 99.84, first + second + third, 3e-3, source}});
}

TEST_CASE("Douglas's two parallel pipes equal one of the printed bore", "[reference]") {
  // K 1.5 in all is what this program itself takes: 0.5 in and 1.0 out.
  const std::string law = "friction factor: 0.032";
  const BookFarm book{{{"upper", 110.0}, {"lower", 100.0}},
                      {},
                      {{"narrow", "upper", "lower", 100.0, 0.050, law, "lies: buried"},
                       {"wide", "upper", "lower", 100.0, 0.100, law, "lies: buried"},
                       {"single", "upper", "lower", 100.0, 0.10687, law, "lies: buried"}}};
  const SolvedFarm farm = solved_book(book);
  const std::string source =
      "E3.3 Douglas, Fluid Mechanics, Ex. 14.3 (Fanning f 0.008): V inputs, C answers";
  check({{"50 mm", 0.003398, flow_of(farm, "narrow"), 5e-4, source},
         {"100 mm", 0.019007, flow_of(farm, "wide"), 5e-4, source},
         {"106.87 mm",
          flow_of(farm, "narrow") + flow_of(farm, "wide"),
          flow_of(farm, "single"),
          5e-4,
          source}});
}

TEST_CASE("ten gallons a minute in inch-and-a-quarter pipe lose what the factsheet says",
          "[reference]") {
  const std::string source =
      "A2.3a BC Ministry of Agriculture and Lands, Factsheet 590.304-5, Jan 2006, worked example: "
      "V";
  const SolvedFarm farm = solved(std::string(
      "farm: from a factsheet\nshow: US\nsite: {water: 15 C}\ncreeks: {upper: {surface: 110 ft}}\n"
      "troughs: {low: {float: 100 ft, need: 10 gal/min}}\n"
      "pipes: {line: {from: upper, to: low, length: 100 ft, size: {bore: 1.380 in, C: 140},"
      " entrance: 0}}\n"));
  REQUIRE(farm.place("low").met.value() == Approx(1.0));
  check({{"ft per 100 ft",
          1.66,
          farm.pipe("line").head_loss_m.value() / metres_per_foot,
          0.02,
          source}});
}

TEST_CASE("ten feet of fall in a thousand bring the guide's flow through 3/4 in pipe",
          "[reference]") {
  const std::string source =
      "A2.3b NMSU Guide B-810, Sizing Plastic Pipelines for Water on the Range, Example A: V";
  const SolvedFarm farm = solved(std::string(
      "farm: from a guide\nshow: US\nsite: {water: 15 C}\n"
      "creeks: {upper: {surface: 110 ft}, lower: {surface: 100 ft}}\n"
      "pipes: {line: {from: upper, to: lower, length: 1000 ft, size: 3/4 in SIDR 15}}\n"));
  const double gallons_per_minute = flow_of(farm, "line") / cubic_metres_per_us_gallon * 60.0;
  check({{"gal/min", 1.8, gallons_per_minute, 0.08, source}});
}

TEST_CASE("a sharp hole under a creek passes the orifice's flow", "[reference]") {
  const std::string source = "E8.1 sharp orifice, Cd 0.61: C";
  struct Hole {
    double bore_mm;
    double depth_m;
    double litres_per_second;
  };
  for (const Hole& hole :
       {Hole{12.7, 1.0, 0.34222}, Hole{25.0, 1.0, 1.32610}, Hole{25.4, 0.3048, 0.75574}}) {
    CAPTURE(source, hole.bore_mm, hole.depth_m);
    const SolvedFarm farm = solved(fmt::format(
        "farm: a hole\ncreeks: {{above: {{surface: 100 m}}}}\n"
        "outlets: {{hole: {{level: {} m, opening: {} mm}}}}\n"
        "pipes: {{box: {{from: above, to: hole, length: 1.5 m, size: {{bore: 2 m}}}}}}\n",
        100.0 - hole.depth_m,
        hole.bore_mm));
    REQUIRE(farm.answer.converged);
    CHECK(farm.place("hole").delivered_m3_s ==
          Approx(litres(hole.litres_per_second)).epsilon(1e-4));
  }
}

}  // namespace leat::tests
