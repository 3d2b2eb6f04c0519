#include "solver/hydrology/pan.h"

#include <catch2/catch.hpp>

#include "solver/hydrology/evapotranspiration.h"

namespace leat::hydrology {
namespace {

TEST_CASE("a pond of 400 square metres loses what a pan beside it foretells", "[reference]") {
  // Reference J1: pan 8.0 mm/day, coefficient 0.70, 400 m2: 2.24 m3/day.
  const double pond = pond_evaporation_mm_per_day(8.0, shallow_pond_pan_coefficient);
  CHECK(depth_rate_over_area_m3_s(pond, 400.0) * 86400.0 == Approx(2.24).epsilon(1e-12));
}

TEST_CASE("a millimetre a day on a hectare is ten cubic metres", "[reference]") {
  // Reference L: 1 mm on 1 ha is 10 m3, exact.
  CHECK(depth_rate_over_area_m3_s(1.0, 1e4) * 86400.0 == Approx(10.0).epsilon(1e-12));
}

TEST_CASE("shallow open water loses a twentieth more than the grass beside it", "[reference]") {
  // Reference J1: FAO-56 table 12, from memory, 1.05.
  CHECK(open_water_coefficient == 1.05);
}

}  // namespace
}  // namespace leat::hydrology
