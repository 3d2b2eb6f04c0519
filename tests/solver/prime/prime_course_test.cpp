#include "solver/prime/prime_course.h"

#include <numbers>
#include <string>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

using solver::EndClosure;
using solver::PrimeCourse;

/// A siphon of 100 mm bore from a pond at 10 m to an outlet at 2 m.
SolvedFarm siphon(const std::string& path, const std::string& more = "") {
  return solved(R"(farm: hand made
ponds:
  upper: {surface: 10 m}
outlets:
  end: {level: 2 m}
pipes:
  siphon:
    from: upper
    to: end
    size: {bore: 100 mm}
    path: )" + path +
                    "\n" + more,
                solver::LoadCase::Wide);
}

PrimeCourse course_of(const SolvedFarm& farm, std::size_t pipe = 0) {
  return solver::prime_course(
      farm.farm, farm.answer, solver::line_through(farm.farm, farm.answer, pipe));
}

/// Cubic metres in a metre of pipe of 100 mm bore.
constexpr double area = std::numbers::pi / 4.0 * 0.01;

}  // namespace

// All slopes are 3 down in 4 across: 5 m of pipe for every 3 m of height.

TEST_CASE("water poured in at the summit fills the dips in the order it meets them") {
  // Summit 14 m, dip 8, high 11, dip 5, high 8, end 2.
  const PrimeCourse course =
      course_of(siphon("[[0 m, 8 m], [8 m, 14 m], [16 m, 8 m], [20 m, 11 m], [28 m, 5 m], [32 m, 8 "
                       "m], [40 m, 2 m]]"));
  CHECK(course.top().at_m == Approx(8.0));
  CHECK(course.climb_m() == Approx(4.0));
  CHECK(course.volume_m3 == Approx(50.0 * area));
  CHECK(course.inlet_side_m3 == Approx(10.0 * area));
  CHECK(course.outlet_side_m3 == Approx(40.0 * area));
  // The pond itself fills from 8 to 10 m: 2 m of height, 10/3 m of pipe.
  CHECK(course.already_in_m3 == Approx(10.0 / 3.0 * area));
  REQUIRE(course.bleeds.size() == 2);
  // Water runs over 11 m first, so the first dip is full to there (5 + 5 m of pipe); the second
  // stands at 8 m on both sides (5 + 5 m) and the last leg is full (10 m): the high point at 8 m is
  // capped.
  CHECK(course.line.points[course.bleeds[0].point].at_m == Approx(32.0));
  CHECK(course.bleeds[0].volume_m3 == Approx(30.0 * area));
  // Then the second dip comes up from 8 to 11 m on the one side that is open (5 m).
  CHECK(course.line.points[course.bleeds[1].point].at_m == Approx(20.0));
  CHECK(course.bleeds[1].volume_m3 == Approx(5.0 * area));
  CHECK_FALSE(course.bleeds[0].on_inlet_side);
}

TEST_CASE("a high point below the next one is capped before water runs over that") {
  // Summit 14 m, dip 5, high 8, dip 5, high 11, end 2.
  const PrimeCourse course =
      course_of(siphon("[[0 m, 8 m], [8 m, 14 m], [20 m, 5 m], [24 m, 8 m], [28 m, 5 m], [36 m, 11 "
                       "m], [48 m, 2 m]]"));
  REQUIRE(course.bleeds.size() == 2);
  // At 8 m: both dips stand at 8 m, four legs of 3 m height.
  CHECK(course.line.points[course.bleeds[0].point].at_m == Approx(24.0));
  CHECK(course.bleeds[0].volume_m3 == Approx(20.0 * area));
  // At 11 m: from the summit's side down 6 m (10 m), 5 and 5 m between, up 10 m, down 15 m: 45 m.
  CHECK(course.line.points[course.bleeds[1].point].at_m == Approx(36.0));
  CHECK(course.bleeds[1].volume_m3 == Approx(25.0 * area));
}

TEST_CASE("a high point on the way up to the summit belongs to the inlet side") {
  const PrimeCourse course =
      course_of(siphon("[[0 m, 8 m], [4 m, 11 m], [8 m, 8 m], [16 m, 14 m], [32 m, 2 m]]"));
  REQUIRE(course.bleeds.size() == 1);
  CHECK(course.bleeds[0].on_inlet_side);
  // The dip at 8 m up to 11 m on both sides (5 + 5 m), and the leg down to the inlet (5 m).
  CHECK(course.bleeds[0].volume_m3 == Approx(15.0 * area));
  // Up to 10 m the pond fills the first leg by itself (10/3 m) and runs no further.
  CHECK(course.already_in_m3 == Approx(10.0 / 3.0 * area));
}

TEST_CASE("legs turn where the line turns and hold all its water") {
  const PrimeCourse course =
      course_of(siphon("[[0 m, 8 m], [8 m, 14 m], [16 m, 8 m], [20 m, 11 m], [32 m, 2 m]]"));
  REQUIRE(course.legs.size() == 4);
  double sum = 0.0;
  for (const solver::PrimeLeg& leg : course.legs) {
    sum += leg.volume_m3;
  }
  CHECK(sum == Approx(course.volume_m3).epsilon(1e-12));
  CHECK(course.legs[2].from_m == Approx(16.0));
  CHECK(course.legs[2].to_elevation_m == Approx(11.0));
  CHECK(course.legs[2].volume_m3 == Approx(5.0 * area));
}

TEST_CASE("what the file has at the ends is what shuts them") {
  const std::string path = "[[0 m, 8 m], [8 m, 14 m], [24 m, 2 m]]";
  const PrimeCourse bare = course_of(siphon(path));
  CHECK(bare.inlet.kind == EndClosure::Kind::Cap);
  CHECK(bare.outlet.kind == EndClosure::Kind::Cap);
  const PrimeCourse valves =
      course_of(siphon(path, "    valve: {type: ball, open: 100 %, at: end}\n"));
  CHECK(valves.outlet.kind == EndClosure::Kind::Valve);
  CHECK(valves.outlet.valve == model::ValveType::Ball);
  const PrimeCourse foot = course_of(siphon(path, "    fittings: [{hinged foot valve: start}]\n"));
  CHECK(foot.inlet.kind == EndClosure::Kind::OneWay);
  CHECK(foot.inlet.one_way == "hinged foot valve");
  // A check above the pond's level does not hold the water below it.
  const PrimeCourse high = course_of(siphon(path, "    fittings: [{swing check: 6 m}]\n"));
  CHECK(high.inlet.kind == EndClosure::Kind::Cap);
  // A valve half way down leaves the rest of the leg open.
  const PrimeCourse half =
      course_of(siphon(path, "    valve: {type: ball, open: 100 %, at: 16 m}\n"));
  CHECK(half.outlet.kind == EndClosure::Kind::Cap);
}

TEST_CASE("a line goes on through tees along its largest flow") {
  const SolvedFarm farm = solved(R"(farm: chain
ponds:
  upper: {surface: 10 m}
tees:
  crest: 12 m
  low tee: 6 m
outlets:
  trickle: {level: 5 m, opening: 3 mm}
  end: {level: 2 m}
pipes:
  up: {from: upper, to: crest, size: {bore: 50 mm}, path: [[0 m, 9 m], [30 m, 12 m]]}
  down: {from: crest, to: low tee, size: {bore: 40 mm}, length: 60 m}
  small: {from: low tee, to: trickle, size: {bore: 20 mm}, length: 20 m}
  on: {from: low tee, to: end, size: {bore: 40 mm}, length: 50 m}
)",
                                 solver::LoadCase::Wide);
  for (const std::size_t asked : {0U, 1U, 3U}) {
    const PrimeCourse course = course_of(farm, asked);
    CAPTURE(asked);
    REQUIRE(course.line.pipes == std::vector<std::size_t>{0, 1, 3});
    REQUIRE(course.summit_tee.has_value());
    CHECK(farm.farm.places[*course.summit_tee].name == "crest");
    REQUIRE(course.line.branches.size() == 1);
    CHECK(course.line.branches[0].pipe == 2);
    CHECK(course.bleeds.empty());
    // pi/4 (0.05^2 x 30.15 + 0.04^2 x 110): the first pipe is as long as its path.
    CHECK(course.volume_m3 ==
          Approx(std::numbers::pi / 4.0 * (0.0025 * 30.1496 + 0.0016 * 110.0)).epsilon(1e-4));
  }
  // Asked for the branch, the line runs down the branch.
  CHECK(course_of(farm, 2).line.pipes == std::vector<std::size_t>{0, 1, 2});
}

}  // namespace leat::tests
