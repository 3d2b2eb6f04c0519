#include "solver/hydraulics/air_pressure.h"

#include <string>

#include <catch2/catch.hpp>

#include "solver/hydraulics/water.h"

namespace leat::hydraulics {
namespace {

constexpr double reference_density_kg_m3 = 1000.0;

struct AltitudeRow {
  std::string source;
  double altitude_m;
  double pressure_Pa;
  double head_m;  // of water of 1000 kg/m3
  double head_ft;
  double head_less_vapour_m;  // of water of 15 C
  double head_less_vapour_ft;
};

const std::string table_d2 =
    "reference table D2: ISA / US Standard Atmosphere 1976, computed with python3-fluids 1.0.22";

TEST_CASE("air pressure follows the standard atmosphere up the hill", "[reference]") {
  const auto row = GENERATE(values<AltitudeRow>({
      {table_d2, 0.0, 101325.0, 10.332, 33.90, 10.167, 33.36},
      {table_d2, 500.0, 95461.3, 9.734, 31.94, 9.569, 31.39},
      {table_d2, 1000.0, 89876.3, 9.165, 30.07, 8.999, 29.52},
      {table_d2, 1500.0, 84559.7, 8.623, 28.29, 8.456, 27.74},
      {table_d2, 2000.0, 79501.4, 8.107, 26.60, 7.940, 26.05},
      {table_d2, 3000.0, 70121.2, 7.150, 23.46, 6.983, 22.91},
  }));
  CAPTURE(row.source, row.altitude_m);
  const double pressure_Pa = in_pascals(air_pressure_at(metres(row.altitude_m)));
  CHECK(pressure_Pa == Approx(row.pressure_Pa).epsilon(1e-4));
  CHECK(pressure_Pa == Approx(row.pressure_Pa).epsilon(0.0).margin(0.06));  // the printed digits

  const double head_m = pressure_Pa / (reference_density_kg_m3 * gravity_m_s2);
  CHECK(head_m == Approx(row.head_m).epsilon(0.0).margin(0.0006));
  CHECK(in_feet(metres(head_m)) == Approx(row.head_ft).epsilon(0.0).margin(0.006));

  const Water water = water_at(celsius(15.0));
  const double less_vapour_m =
      (pressure_Pa - water.vapour_pressure_Pa) / (water.density_kg_m3 * gravity_m_s2);
  CHECK(less_vapour_m == Approx(row.head_less_vapour_m).epsilon(0.0).margin(0.0006));
  CHECK(in_feet(metres(less_vapour_m)) ==
        Approx(row.head_less_vapour_ft).epsilon(0.0).margin(0.006));
}

struct FeetRow {
  std::string source;
  double altitude_ft;
  double head_ft;
};

TEST_CASE("air pressure in feet of water follows altitude in feet", "[reference]") {
  const std::string source = "reference table D2, line in feet, computed";
  const auto row = GENERATE_COPY(values<FeetRow>({
      {source, 1000.0, 32.69},
      {source, 5000.0, 28.21},
      {source, 10000.0, 23.32},
  }));
  CAPTURE(row.source, row.altitude_ft);
  const double pressure_Pa = in_pascals(air_pressure_at(feet(row.altitude_ft)));
  const double head_m = pressure_Pa / (reference_density_kg_m3 * gravity_m_s2);
  CHECK(in_feet(metres(head_m)) == Approx(row.head_ft).epsilon(0.0).margin(0.006));
}

TEST_CASE("air pressure is the nearest end's outside the layer it is known for") {
  CHECK(air_pressure_at(metres(50000.0)) == air_pressure_at(metres(11000.0)));
  CHECK(air_pressure_at(metres(-50000.0)) == air_pressure_at(metres(-5000.0)));
  CHECK(air_pressure_at(metres(-400.0)) > air_pressure_at(metres(0.0)));
}

}  // namespace
}  // namespace leat::hydraulics
