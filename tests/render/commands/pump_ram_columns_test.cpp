// What scripts read of pumps and rams.
#include "render/commands/solve/pump_ram_columns.h"

#include <catch2/catch.hpp>

#include "solver/steady/steady.h"
#include "tests/support/farm_text.h"

namespace leat::render {

namespace {

const char* const sun_pump = R"(farm: sun pump
site: {water: 12 C}
creeks: {brook: {surface: 10 m}}
tanks: {tank: {floor: 20 m, full: 4 m, diameter: 6 m, depth: 1 m}}
troughs: {trough: {float: 15 m, need: 2000 L/day}}
pumps: {lift: {from: brook, to: tank, curve: [[0 L/min, 30 m], [20 L/min, 5 m]], runs: 6 h/day, efficiency: 0.4}}
pipes: {down: {from: tank, to: trough, size: 1 in SIDR 15, length: 60 m}}
)";

}  // namespace

TEST_CASE("a pump is told with its head, its power, its hours and what a day of them makes") {
  const solver::SteadyAnswer answer = solver::solve_steady(tests::farm_of(sun_pump), {});
  REQUIRE(answer.converged);
  const Json pumps = json_rows(pump_columns(), pumps_of(answer));
  REQUIRE(pumps.size() == 1);
  const Json& pump = pumps[0];
  CHECK(pump["name"] == "lift");
  // 11 m of lift on the straight curve from 30 m at nothing to 5 m at 20 L/min: 15.2 L/min.
  CHECK(pump["head_m"].get<double>() == Approx(11.0));
  CHECK(pump["delivered_L_s"].get<double>() == Approx(15.2 / 60.0).epsilon(1e-3));
  // rho g Q H over the efficiency.
  CHECK(pump["power_W"].get<double>() ==
        Approx(1000.0 * 9.80665 * 15.2 / 60e3 * 11.0 / 0.4).epsilon(1e-2));
  CHECK(pump["running_h"].get<double>() == Approx(6.0));
  CHECK(pump["per_day_L"].get<double>() == Approx(15.2 * 360.0).epsilon(1e-3));
  CHECK(pump["per_day_kWh"].get<double>() == Approx(pump["power_W"].get<double>() * 6.0 / 1000.0));
  CHECK(pump["state"] == "ok");
  CHECK(rams_of(answer).empty());
}

TEST_CASE("no pump is told of while every end is shut") {
  solver::SteadyOptions options;
  options.load_case = solver::LoadCase::Static;
  CHECK(pumps_of(solver::solve_steady(tests::farm_of(sun_pump), options)).empty());
}

}  // namespace leat::render
