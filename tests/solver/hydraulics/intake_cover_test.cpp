#include "solver/hydraulics/intake_cover.h"

#include <catch2/catch.hpp>

namespace leat::hydraulics {

TEST_CASE("a farm pipe's mouth needs 0.3 m of water and a wide fast one needs more") {
  CHECK(intake_cover_needed_m(0.0266, 1.0) == 0.3);
  CHECK(intake_cover_needed_m(0.0266, 0.0) == 0.3);
  // Hydraulic Institute 9.8, from memory. By hand, D 0.2 m, v 1.5 m/s: sqrt(9.80665 x 0.2) =
  // 1.40048, Fr = 1.07106, 0.2 (1 + 2.3 x 1.07106) = 0.69269 m.
  CHECK(intake_cover_needed_m(0.2, 1.5) == Approx(0.69269).epsilon(1e-4));
  // Which way it is drawn makes no difference.
  CHECK(intake_cover_needed_m(0.2, -1.5) == intake_cover_needed_m(0.2, 1.5));
}

}  // namespace leat::hydraulics
