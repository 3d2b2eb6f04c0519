// Amounts as a sentence says them.
#include "solver/spoken_amount.h"

#include <catch2/catch.hpp>

#include "model/quantity.h"

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

TEST_CASE("velocities and volumes are said in the farm's units") {
  CHECK(solver::spoken_velocity(1.524, UnitSystem::Us) == "5 ft/s");
  CHECK(solver::spoken_velocity(1.5, UnitSystem::Metric) == "1.5 m/s");
  CHECK(solver::spoken_volume(0.25, UnitSystem::Metric) == "250 L");
  CHECK(solver::spoken_volume(cubic_metres_per_us_gallon * 350.0, UnitSystem::Us) == "350 gal");
}

}  // namespace leat::tests
