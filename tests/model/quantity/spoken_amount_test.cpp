// Amounts as a sentence says them.
#include "model/quantity/spoken_amount.h"

#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"

namespace leat::tests {

using model::UnitSystem;

TEST_CASE("a flow is said in what a bucket and a watch give") {
  CHECK(solver::spoken_flow(1e-3, UnitSystem::Metric) == "60 L/min");
  CHECK(solver::spoken_flow(0.9 * cubic_metres_per_us_gallon / 60.0, UnitSystem::Us) ==
        "0.9 gal/min");
  CHECK(solver::spoken_flow_figure(2.4 * cubic_metres_per_us_gallon / 60.0, UnitSystem::Us) ==
        "2.4");
  CHECK(solver::spoken_flow(0.0, UnitSystem::Metric) == "0 L/min");
}

TEST_CASE("short lengths are said in the smaller unit") {
  CHECK(solver::spoken_length(0.052, UnitSystem::Metric) == "5.2 cm");
  CHECK(solver::spoken_length(4.0, UnitSystem::Metric) == "4 m");
  CHECK(solver::spoken_length(6.0 * metres_per_foot, UnitSystem::Us) == "6 ft");
  CHECK(solver::spoken_length(0.5 * metres_per_foot, UnitSystem::Us) == "6 in");
}

TEST_CASE("levels keep their decimals and pressures are rounded to a tenth") {
  CHECK(solver::spoken_level(31.4, UnitSystem::Metric) == "31.40 m");
  CHECK(solver::spoken_level(100.0 * metres_per_foot, UnitSystem::Us) == "100.0 ft");
  CHECK(solver::spoken_pressure(40.0 * pascals_per_psi, UnitSystem::Us) == "40 psi");
  CHECK(solver::spoken_pressure(98765.0, UnitSystem::Metric) == "98.8 kPa");
}

TEST_CASE("how much lower a summit must lie and the level that gives add up") {
  // 97.20 - 8.0 = 89.20; it had to come 7.92 m down.
  CHECK(solver::spoken_lowering(97.2, 7.92, UnitSystem::Metric) == "8.0 m lower, at 89.20 m");
  // Already a tenth: 100.00 - 0.5 = 99.50.
  CHECK(solver::spoken_lowering(100.0, 0.5, UnitSystem::Metric) == "0.5 m lower, at 99.50 m");
  // 12.347 m is written 12.35 m; 12.247 m is wanted at most, 0.103 m below that: 12.35 - 0.2.
  CHECK(solver::spoken_lowering(12.347, 0.1, UnitSystem::Metric) == "0.2 m lower, at 12.15 m");
  // 106.0 ft - 3.3 ft = 102.7 ft; it had to come 1.0 m, 3.28 ft, down.
  CHECK(solver::spoken_lowering(106.0 * metres_per_foot, 1.0, UnitSystem::Us) ==
        "3.3 ft lower, at 102.7 ft");
}

TEST_CASE("a reach under suction has one unit for both its ends") {
  CHECK(solver::spoken_reach(0.0, 8.89, UnitSystem::Metric) == "between 0 m and 8.89 m");
  CHECK(solver::spoken_reach(0.05, 395.0, UnitSystem::Metric) == "between 0.05 m and 395 m");
  CHECK(solver::spoken_reach(0.02, 0.08, UnitSystem::Metric) == "between 2 cm and 8 cm");
  CHECK(solver::spoken_reach(0.5 * metres_per_foot, 395.0 * metres_per_foot, UnitSystem::Us) ==
        "between 0.5 ft and 395 ft");
}

TEST_CASE("half a last digit is said as the table writes it") {
  CHECK(solver::spoken_flow(0.62499999999 / 6e4, UnitSystem::Metric) == "0.63 L/min");
  CHECK(solver::spoken_level(97.125, UnitSystem::Metric) == "97.13 m");
}

TEST_CASE("velocities and volumes are said in the farm's units") {
  CHECK(solver::spoken_velocity(1.524, UnitSystem::Us) == "5 ft/s");
  CHECK(solver::spoken_velocity(1.5, UnitSystem::Metric) == "1.5 m/s");
  CHECK(solver::spoken_volume(0.25, UnitSystem::Metric) == "250 L");
  CHECK(solver::spoken_volume(cubic_metres_per_us_gallon * 350.0, UnitSystem::Us) == "350 gal");
}

}  // namespace leat::tests
