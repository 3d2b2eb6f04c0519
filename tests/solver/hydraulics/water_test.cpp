#include "solver/hydraulics/water.h"

#include <string>

#include <catch2/catch.hpp>

namespace leat::hydraulics {
namespace {

struct WaterRow {
  std::string source;
  double temperature_C;
  double density_kg_m3;
  double viscosity_mm2_s;
  double vapour_pressure_kPa;
  double vapour_head_m;
};

const std::string table_d1 =
    "reference table D1: IAPWS-95 at 101.325 kPa, saturation IF97, computed with python3-iapws "
    "1.5.2";

TEST_CASE("water is as heavy, thick and ready to boil as published from 0 to 40 C", "[reference]") {
  const auto row = GENERATE(values<WaterRow>({
      {table_d1, 0.0, 999.844, 1.7914, 0.6117, 0.062},
      {table_d1, 5.0, 999.967, 1.5182, 0.8726, 0.089},
      {table_d1, 10.0, 999.702, 1.3063, 1.2282, 0.125},
      {table_d1, 15.0, 999.103, 1.1386, 1.7057, 0.174},
      {table_d1, 20.0, 998.207, 1.0034, 2.3392, 0.239},
      {table_d1, 25.0, 997.048, 0.8927, 3.1698, 0.324},
      {table_d1, 30.0, 995.649, 0.8007, 4.2467, 0.435},
      {table_d1, 35.0, 994.033, 0.7234, 5.6286, 0.577},
      {table_d1, 40.0, 992.216, 0.6579, 7.3844, 0.759},
  }));
  CAPTURE(row.source, row.temperature_C);
  const Water water = water_at(celsius(row.temperature_C));
  CHECK(water.density_kg_m3 == Approx(row.density_kg_m3).epsilon(1e-4));
  CHECK(water.kinematic_viscosity_m2_s * 1e6 == Approx(row.viscosity_mm2_s).epsilon(2e-3));
  CHECK(water.vapour_pressure_Pa * 1e-3 == Approx(row.vapour_pressure_kPa).epsilon(2e-3));
  const double vapour_head_m = water.vapour_pressure_Pa / (water.density_kg_m3 * 9.80665);
  CHECK(vapour_head_m == Approx(row.vapour_head_m).epsilon(0.0).margin(0.0006));
}

TEST_CASE("water at its triple point has the published vapour pressure", "[reference]") {
  const std::string source = "IAPWS SR1-86 (1992), check value 611.657 Pa at 273.16 K, from memory";
  CAPTURE(source);
  CHECK(water_at(celsius(0.01)).vapour_pressure_Pa == Approx(611.657).epsilon(1e-6));
}

TEST_CASE("water outside 0 to 40 C is taken as at the nearer end") {
  CHECK(water_at(celsius(-3.0)).density_kg_m3 == water_at(celsius(0.0)).density_kg_m3);
  CHECK(water_at(celsius(-3.0)).vapour_pressure_Pa == water_at(celsius(0.0)).vapour_pressure_Pa);
  CHECK(water_at(celsius(55.0)).vapour_pressure_Pa == water_at(celsius(40.0)).vapour_pressure_Pa);
}

TEST_CASE("warming water gets thinner and nearer to boiling, and is densest near 4 C", "[law]") {
  for (int tenth = 0; tenth < 400; ++tenth) {
    const double temperature_C = 0.1 * tenth;
    CAPTURE(temperature_C);
    const Water cold = water_at(celsius(temperature_C));
    const Water warm = water_at(celsius(temperature_C + 0.1));
    REQUIRE(warm.kinematic_viscosity_m2_s < cold.kinematic_viscosity_m2_s);
    REQUIRE(warm.vapour_pressure_Pa > cold.vapour_pressure_Pa);
    REQUIRE((warm.density_kg_m3 > cold.density_kg_m3) == (tenth < 40));
  }
}

}  // namespace
}  // namespace leat::hydraulics
