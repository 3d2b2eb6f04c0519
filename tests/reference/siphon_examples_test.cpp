// Siphons of the textbooks, flow and summit pressure: reference-values.md, section E2. "V" read in
// the named source, "C" worked out from its inputs there.
#include <cmath>
#include <string>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "model/quantity/quantity.h"
#include "solver/hydraulics/water.h"
#include "tests/support/book_farm.h"

namespace leat::tests {

namespace {

/// Horizontal reach of a straight leg by its length and its rise.
double reach_m(double length_m, double rise_m) {
  return std::sqrt(length_m * length_m - rise_m * rise_m);
}

/// Air pressure that a height of the farm's own water stands for, as text.
std::string air_of_head(double head_m, double water_celsius) {
  const double density = hydraulics::water_at(celsius(water_celsius)).density_kg_m3;
  return fmt::format(
      "{{water: {} C, air pressure: {} Pa}}", water_celsius, head_m * density * gravity_m_s2);
}

}  // namespace

TEST_CASE("a long siphon has its textbook flow and summit pressure", "[reference]") {
  const double summit_at_m = reach_m(300.0, 1.4);
  const double end_at_m = summit_at_m + reach_m(400.0, 11.4);
  const SolvedFarm farm = solved_book(BookFarm{
      {{"upper", 100.0}, {"lower", 90.0}},
      {},
      {{"siphon",
        "upper",
        "lower",
        700.0,
        0.100,
        "friction factor: 0.08",
        fmt::format("path: [[0 m, 100 m], [{} m, 101.4 m], [{} m, 90 m]], entrance: 0, exit: 0",
                    summit_at_m,
                    end_at_m)}},
      air_of_head(10.3, 15.0)});
  const std::string source =
      "E2.1 Choudhary & Om Prakash, Fluid Mechanics, Ex. 7.18: V inputs, C answer";
  REQUIRE(farm.pipe("siphon").summit);
  check({{"V", 0.59191, farm.pipe("siphon").velocity_m_s, 5e-4, source},
         {"Q", 4.6488e-3, flow_of(farm, "siphon"), 5e-4, source},
         {"summit, absolute",
          4.5964,
          farm.pipe("siphon").summit->absolute_head_m.value(),
          5e-4,
          source}});
  CHECK_FALSE(farm.pipe("siphon").summit->parted);
}

namespace {

/// Ex. 9.14 of FOSSEE book 1962 with its ridge at a height above the upper water [ft].
SolvedFarm siphon_over_ridge(double rise_ft) {
  const double summit_at_ft = reach_m(1000.0, rise_ft);
  const double end_at_ft = summit_at_ft + reach_m(9000.0, 100.0 + rise_ft);
  const std::string path =
      fmt::format("path: [[0 ft, 500 ft], [{} ft, {} ft], [{} ft, 400 ft]], entrance: 0, exit: 0",
                  summit_at_ft,
                  500.0 + rise_ft,
                  end_at_ft);
  return solved_book(
      BookFarm{{{"upper", 500.0 * metres_per_foot}, {"lower", 400.0 * metres_per_foot}},
               {},
               {{"siphon",
                 "upper",
                 "lower",
                 10000.0 * metres_per_foot,
                 2.0 * metres_per_foot,
                 "friction factor: 0.0125",
                 path}},
               air_of_head(34.0 * metres_per_foot, 15.0)});
}

}  // namespace

TEST_CASE("a ridge of 12.40 ft leaves ten feet of absolute head", "[reference]") {
  const std::string source = "E2.3 FOSSEE book 1962, Ex. 9.14 (p. 349), g 32.2 ft/s2: V";
  const SolvedFarm farm = siphon_over_ridge(12.40);
  REQUIRE(farm.pipe("siphon").summit);
  const double cubic_foot = std::pow(metres_per_foot, 3);
  check({{"V, ft/s", 10.151, farm.pipe("siphon").velocity_m_s / metres_per_foot, 1e-3, source},
         {"Q, ft3/s", 31.890, flow_of(farm, "siphon") / cubic_foot, 1e-3, source},
         {"absolute, ft",
          10.0,
          farm.pipe("siphon").summit->absolute_head_m.value() / metres_per_foot,
          1e-3,
          source}});
  CHECK_FALSE(farm.pipe("siphon").summit->parted);
}

TEST_CASE("the same ridge left at 30 ft parts the water", "[reference]") {
  const std::string source = "E2.3 FOSSEE book 1962, Ex. 9.14 (p. 349): V, the ridge as it stands";
  CAPTURE(source);
  const SolvedFarm farm = siphon_over_ridge(30.0);
  REQUIRE(farm.pipe("siphon").summit);
  CHECK(farm.pipe("siphon").summit->parted);
  CHECK(farm.flag(solver::Code::Parted, "siphon") != nullptr);
  // The upstream leg alone: 34 ft of air less vapour less 30 ft drive 1000 ft of pipe and one
  // velocity head (v^2/2g times 0.0125 * 1000 / 2 + 1).
  const double vapour_ft =
      farm.answer.vapour_pressure_Pa / (farm.answer.density_kg_m3 * gravity_m_s2) / metres_per_foot;
  const double velocity_head_ft = (34.0 - vapour_ft - 30.0) / (0.0125 * 1000.0 / 2.0 + 1.0);
  const double velocity_m_s = std::sqrt(2.0 * gravity_m_s2 * velocity_head_ft * metres_per_foot);
  CHECK(farm.pipe("siphon").velocity_m_s == Approx(velocity_m_s).epsilon(2e-3));
}

TEST_CASE("Douglas's siphon has its printed flow and summit pressure", "[reference]") {
  const double summit_at_m = reach_m(5.0, 1.5);
  const double end_at_m = summit_at_m + reach_m(10.0, 5.5);
  const std::string text = fmt::format(
      "farm: from a book\nsite: {{water: 4 C}}\ncreeks: {{A: {{surface: 100 m}}}}\n"
      "outlets: {{C: {{level: 96 m}}}}\npipes:\n"
      "  siphon: {{from: A, to: C, size: {{bore: 100 mm, friction factor: 0.32}},"
      " path: [[0 m, 100 m], [{} m, 101.5 m], [{} m, 96 m]], entrance: 0.5}}\n",
      summit_at_m,
      end_at_m);
  const SolvedFarm farm = solved(text);
  const std::string source =
      "E2.4 Douglas, Fluid Mechanics, Ex. 14.1: V inputs, C (g 9.81, 1000 kg/m3)";
  REQUIRE(flow_of(farm, "siphon") > 0.0);
  REQUIRE(farm.pipe("siphon").summit);
  const double summit_Pa = farm.pipe("siphon").summit->absolute_head_m.value() *
                               farm.answer.density_kg_m3 * gravity_m_s2 -
                           farm.answer.air_pressure_Pa;
  check({{"V", 1.2591, farm.pipe("siphon").velocity_m_s, 1e-3, source},
         {"summit, gauge Pa", -28588.0, summit_Pa, 1e-3, source},
         {"lowest along the pipe, gauge Pa",
          -28588.0,
          farm.pipe("siphon").lowest_pressure_Pa.value(),
          1e-3,
          source}});
  CHECK(farm.pipe("siphon").lowest_at_m.value() == Approx(summit_at_m));
}

}  // namespace leat::tests
