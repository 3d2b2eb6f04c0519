#include "solver/findings/trapped_air.h"

#include <cmath>
#include <string>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

using hydraulics::AirVerdict;
using solver::FallingLeg;

/// Two rises below the pond's level on the way to an outlet; `extra` belongs to the pipe.
std::string two_rises(const std::string& extra, const std::string& opening = "opening: 15 mm") {
  return R"(farm: two rises
ponds:
  upper: {surface: 20 m}
outlets:
  end: {level: 12 m, )" +
         opening + R"(}
pipes:
  line:
    from: upper
    to: end
    size: 32 mm PE100 SDR 11
    path: [[0 m, 19 m], [100 m, 10 m], [200 m, 16 m], [260 m, 13 m], [300 m, 14 m], [400 m, 12 m]]
)" + extra;
}

std::vector<FallingLeg> legs_of(const SolvedFarm& farm) {
  return solver::falling_legs(farm.farm, farm.answer);
}

}  // namespace

TEST_CASE("air hangs behind each high point and not below open water") {
  const SolvedFarm farm = solved(two_rises(""));
  const std::vector<FallingLeg> legs = legs_of(farm);
  // From the pond down to 100 m air rises back to the pond; from 200 m and from 300 m it cannot.
  REQUIRE(legs.size() == 2);
  CHECK(legs[0].high.at_m == Approx(200.0));
  CHECK(legs[0].high.elevation_m == Approx(16.0));
  CHECK(legs[0].to_m == Approx(260.0));
  CHECK(legs[0].angle_rad == Approx(std::atan(3.0 / 60.0)));
  CHECK(legs[0].velocity_m_s == Approx(farm.pipe("line").velocity_m_s));
  CHECK(legs[1].high.at_m == Approx(300.0));
  CHECK(legs[1].to_m == Approx(400.0));
  CHECK(legs[1].angle_rad == Approx(std::atan(2.0 / 100.0)));
}

TEST_CASE("the steepest part of a falling leg decides where its air stands") {
  const SolvedFarm farm = solved(R"(farm: a knee
ponds:
  upper: {surface: 20 m}
outlets:
  end: {level: 12 m}
pipes:
  line: {from: upper, to: end, size: 32 mm PE100 SDR 11,
         path: [[0 m, 16 m], [50 m, 17 m], [150 m, 16 m], [160 m, 13 m], [200 m, 12 m]]}
)");
  const std::vector<FallingLeg> legs = legs_of(farm);
  REQUIRE(legs.size() == 1);
  CHECK(legs[0].from_m == Approx(50.0));
  CHECK(legs[0].to_m == Approx(200.0));
  CHECK(legs[0].angle_rad == Approx(std::atan(3.0 / 10.0)));
}

TEST_CASE("a vent on a high point lets its air out") {
  const std::vector<FallingLeg> legs =
      legs_of(solved(two_rises("    vents: [{at: 200 m, top: 21 m}]\n")));
  REQUIRE(legs.size() == 1);
  CHECK(legs[0].high.at_m == Approx(300.0));
}

TEST_CASE("a tee that pipes come up to and fall away from holds air for all of them") {
  const std::string text = R"(farm: tee on a rise
ponds:
  upper: {surface: 20 m}
tees:
  crest: 18 m
outlets:
  left: {level: 10 m}
  right: {level: 11 m}
pipes:
  up: {from: upper, to: crest, size: 32 mm PE100 SDR 11, path: [[0 m, 17 m], [60 m, 18 m]]}
  down left: {from: crest, to: left, size: 32 mm PE100 SDR 11, length: 200 m}
  down right: {from: crest, to: right, size: 32 mm PE100 SDR 11, length: 200 m}
)";
  const std::vector<FallingLeg> legs = legs_of(solved(text));
  REQUIRE(legs.size() == 2);
  REQUIRE(legs[0].high.tee.has_value());
  CHECK(legs[0].high.elevation_m == Approx(18.0));
  CHECK(legs[0].high.pressure_Pa.has_value());
  CHECK(legs[1].high.tee == legs[0].high.tee);
  // 8 m down over 200 m of pipe: sin = 0.04.
  CHECK(std::sin(legs[0].angle_rad) == Approx(0.04));
}

TEST_CASE("a tee below a falling line from open water holds no air") {
  const std::string text = R"(farm: tee on the way down
ponds:
  upper: {surface: 20 m}
tees:
  fork: 15 m
outlets:
  left: {level: 10 m}
  right: {level: 11 m}
pipes:
  down: {from: upper, to: fork, size: 32 mm PE100 SDR 11, path: [[0 m, 19 m], [60 m, 15 m]]}
  down left: {from: fork, to: left, size: 32 mm PE100 SDR 11, length: 200 m}
  down right: {from: fork, to: right, size: 32 mm PE100 SDR 11, length: 200 m}
)";
  CHECK(legs_of(solved(text)).empty());
}

TEST_CASE("air behind a summit hangs in the pipes below the next tee as well") {
  const std::string text = R"(farm: over and on
ponds:
  upper: {surface: 20 m}
tees:
  fork: 15 m
outlets:
  end: {level: 10 m}
pipes:
  over: {from: upper, to: fork, size: 32 mm PE100 SDR 11,
         path: [[0 m, 19 m], [20 m, 19.5 m], [60 m, 15 m]]}
  on: {from: fork, to: end, size: 32 mm PE100 SDR 11, length: 200 m}
)";
  const std::vector<FallingLeg> legs = legs_of(solved(text));
  REQUIRE(legs.size() == 2);
  CHECK_FALSE(legs[1].high.tee.has_value());
  CHECK(legs[1].high.at_m == Approx(20.0));
}

TEST_CASE("standing water sweeps nothing and static heads have no legs") {
  CHECK(legs_of(solved(two_rises("    valve: {type: gate, shut: yes, at: end}\n"))).empty());
  CHECK(legs_of(solved(two_rises(""), solver::LoadCase::Static)).empty());
}

TEST_CASE("pockets in series hold back the sum of their heights", "[reference]") {
  INFO("reference F6: head to start = sum of the pocket columns (statics, May et al. 2018)");
  const SolvedFarm farm = solved(two_rises(""));
  const solver::AirLock lock =
      solver::air_lock_of(farm.farm, farm.answer, solver::line_through(farm.farm, farm.answer, 0));
  // The pocket behind 200 m is 16 - 13 = 3 m high. The one behind 300 m ends at the open outlet:
  // its air leaves. The source stands 8 m above the outlet: water starts.
  CHECK(lock.pockets == 1);
  CHECK(lock.lifted_m == Approx(3.0));
  CHECK(lock.fall_m == Approx(8.0));
  CHECK(lock.starts());
}

TEST_CASE("a line whose pockets outweigh its fall does not start", "[reference]") {
  INFO("reference F6");
  // Pockets 18 - 11 = 7 m and 17.5 - 12 = 5.5 m; the end lies under water, 12.5 to 14 m: its last
  // leg 17 - 12.5 = 4.5 m is a third. Together 17 m against 20 - 14 = 6 m of fall.
  const SolvedFarm farm = solved(R"(farm: three pockets
ponds:
  upper: {surface: 20 m}
  lower: {surface: 14 m}
pipes:
  line:
    from: upper
    to: lower
    size: 32 mm PE100 SDR 11
    path: [[0 m, 17 m], [50 m, 18 m], [90 m, 11 m], [150 m, 17.5 m], [200 m, 12 m], [250 m, 17 m],
           [300 m, 12.5 m]]
)");
  const solver::AirLock lock =
      solver::air_lock_of(farm.farm, farm.answer, solver::line_through(farm.farm, farm.answer, 0));
  CHECK(lock.pockets == 3);
  CHECK(lock.lifted_m == Approx(17.0));
  CHECK(lock.fall_m == Approx(6.0));
  CHECK_FALSE(lock.starts());
}

TEST_CASE("fast water over the same rise leaves nothing to say about air") {
  const SolvedFarm farm = solved(R"(farm: quick siphon
ponds:
  upper: {surface: 20 m}
outlets:
  end: {level: 12 m}
pipes:
  siphon: {from: upper, to: end, size: 32 mm PE100 SDR 11,
           path: [[0 m, 19 m], [20 m, 22 m], [100 m, 12 m]]}
)");
  CAPTURE(farm.flags());
  CHECK(farm.flag(solver::Code::AirStays, "siphon") == nullptr);
  CHECK(farm.flag(solver::Code::AirDoubtful, "siphon") == nullptr);
  const std::vector<FallingLeg> legs = legs_of(farm);
  REQUIRE(legs.size() == 1);
  CHECK(legs[0].verdict == AirVerdict::Swept);
}

TEST_CASE("a tee that stands open to the air holds no air pocket", "[regression]") {
  const SolvedFarm farm = solved(R"(farm: open tee
creeks: {pool: {surface: 100 m}}
tees: {knap: 99 m}
troughs: {high: {float: 99.8 m, need: 2 L/min}}
outlets: {low: {level: 80 m}}
pipes:
  main: {from: pool, to: knap, size: 32 mm PE100 SDR 11, path: [[0 m, 99 m], [40 m, 97 m], [80 m, 99 m]]}
  down: {from: knap, to: low, size: 50 mm PE100 SDR 11, length: 60 m}
  thin: {from: knap, to: high, size: 20 mm PE100 SDR 11, length: 20 m}
)");
  INFO(farm.flags());
  REQUIRE(farm.flag(solver::Code::AirIn, "knap") != nullptr);
  CHECK(farm.flag(solver::Code::AirStays, "down") == nullptr);
  CHECK(farm.flag(solver::Code::AirDoubtful, "down") == nullptr);
}

}  // namespace leat::tests
