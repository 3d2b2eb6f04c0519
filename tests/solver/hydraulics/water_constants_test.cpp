// Water's properties to the digits of their sources: close enough that no single constant of a
// formula can be one hundredth off unnoticed.
#include <string>

#include <catch2/catch.hpp>

#include "solver/hydraulics/water.h"

namespace leat::hydraulics {
namespace {

struct DensityRow {
  std::string source;
  double temperature_C;
  double density_kg_m3;
};

TEST_CASE("water is as heavy as published to two grams in a cubic metre", "[reference]") {
  // Two formulas, CIPM 2001 here and IAPWS-95 there, are 1.3 g/m3 apart at most.
  const std::string source =
      "reference table D1: IAPWS-95 at 101.325 kPa, computed with python3-iapws 1.5.2";
  const auto row = GENERATE_COPY(values<DensityRow>({
      {source, 0.0, 999.844},
      {source, 5.0, 999.967},
      {source, 10.0, 999.702},
      {source, 20.0, 998.207},
      {source, 30.0, 995.649},
      {source, 40.0, 992.216},
  }));
  CAPTURE(row.source, row.temperature_C);
  CHECK(water_at(celsius(row.temperature_C)).density_kg_m3 ==
        Approx(row.density_kg_m3).epsilon(0.0).margin(0.002));
}

TEST_CASE("water of 25 C is as thick as the release's check value", "[reference]") {
  const std::string source =
      "IAPWS SR6-08, check value of the viscosity at 298.15 K: 889.996774e-6 Pa s, from memory";
  CAPTURE(source);
  const Water water = water_at(celsius(25.0));
  CHECK(water.kinematic_viscosity_m2_s * water.density_kg_m3 ==
        Approx(889.996774e-6).epsilon(1e-9));
}

}  // namespace
}  // namespace leat::hydraulics
