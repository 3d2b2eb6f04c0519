// Where a pipe lies, and where its path turns downward.
#include "solver/network/pipe_geometry.h"

#include <cmath>
#include <optional>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

using solver::CoursePoint;
using solver::PipeCourse;

/// A course through points of distance and elevation; lengths along it are of no interest here.
PipeCourse course_through(const std::vector<std::pair<double, double>>& points) {
  PipeCourse course;
  for (const auto& [at_m, elevation_m] : points) {
    course.points.push_back({at_m, at_m, elevation_m});
  }
  course.length_m = points.back().first;
  return course;
}

std::vector<std::size_t> summits_of(const std::vector<std::pair<double, double>>& points) {
  return course_through(points).summits();
}

using Indexes = std::vector<std::size_t>;

}  // namespace

TEST_CASE("a high point is a summit and a dip is none") {
  CHECK(summits_of({{0, 10}, {10, 12}, {20, 8}, {30, 9}, {40, 5}}) == Indexes{1, 3});
  CHECK(summits_of({{0, 10}, {10, 5}, {20, 9}}).empty());
}

TEST_CASE("a knee before a bank is a summit although the path rises nowhere") {
  CHECK(summits_of({{0, 10}, {100, 9}, {110, 2}}) == Indexes{1});
}

TEST_CASE("where a steep bank runs out into a flat there is no summit") {
  CHECK(summits_of({{0, 10}, {10, 2}, {100, 1}}).empty());
}

TEST_CASE("both ends of a level crest are summits") {
  CHECK(summits_of({{0, 10}, {10, 12}, {30, 12}, {40, 8}}) == Indexes{1, 2});
}

TEST_CASE("a straight fall has no summit however often it was surveyed") {
  // Elevations that a survey in feet gives: straight but for rounding in the last place.
  CHECK(summits_of({{0.0, 30.48}, {3.048, 30.1752}, {6.096, 29.8704}, {9.144, 29.5656}}).empty());
}

TEST_CASE("upright legs make a summit where the pipe goes over and down") {
  CHECK(summits_of({{0, 10}, {0, 13}, {5, 13}, {5, 4}}) == Indexes{1, 2});
  CHECK(summits_of({{0, 10}, {0, 13}, {0, 4}}) == Indexes{1});
  CHECK(summits_of({{0, 10}, {0, 4}, {5, 4}, {5, 10}}).empty());
}

TEST_CASE("a point on a pipe is found between its surveyed points and held within its ends") {
  PipeCourse course = course_through({{0, 10}, {40, 20}, {60, 10}});
  course.points[1].along_m = 50.0;
  course.points[2].along_m = 80.0;
  const CoursePoint middle = course.at(20.0);
  CHECK(middle.elevation_m == Approx(15.0));
  CHECK(middle.along_m == Approx(25.0));
  CHECK(course.at(-5.0).elevation_m == Approx(10.0));
  CHECK(course.at(99.0).along_m == Approx(80.0));
}

TEST_CASE("a pipe with slack is longer than its path and the surplus lies evenly") {
  const model::Farm farm = farm_of(R"(
farm: slack
creeks: {upper: {surface: 100 m}, lower: {surface: 90 m}}
pipes:
  line: {from: upper, to: lower, size: 1 in SIDR 15, length: 110 m,
         path: [[0 m, 100 m], [40 m, 70 m], [80 m, 100 m]], ends: 100 m}
)");
  const PipeCourse course = solver::course_of(farm, farm.pipes[0], std::nullopt);
  // The path is 50 m down and 50 m up again.
  CHECK(course.length_m == Approx(110.0));
  CHECK(course.points[1].along_m == Approx(55.0));
  CHECK(course.points[2].along_m == Approx(110.0));
  CHECK(course.points[1].at_m == Approx(40.0));
}

TEST_CASE("a pipe without a path runs straight from its intake to its outlet") {
  const model::Farm farm = farm_of(R"(
farm: straight
creeks: {upper: {surface: {Jan: 100 m, Jul: 99 m}, intake: 98 m}}
outlets: {end: {level: 90 m}}
pipes: {line: {from: upper, to: end, size: 1 in SIDR 15, length: 60 m}}
)");
  const PipeCourse course = solver::course_of(farm, farm.pipes[0], model::Month::Jul);
  REQUIRE(course.points.size() == 2);
  CHECK(course.points[0].elevation_m == Approx(98.0));
  CHECK(course.points[1].elevation_m == Approx(90.0));
  CHECK(course.points[1].along_m == Approx(60.0));
}

TEST_CASE("a thing at the start, the end or a distance stands there") {
  const PipeCourse course = course_through({{0, 10}, {40, 20}, {60, 10}});
  using Where = model::Placement::Where;
  CHECK(solver::distance_of({Where::Start, {}}, course) == 0.0);
  CHECK(solver::distance_of({Where::End, {}}, course) == 60.0);
  CHECK(solver::distance_of({Where::AtDistance, metres(25.0)}, course) == Approx(25.0));
  CHECK(solver::distance_of({Where::AtDistance, metres(75.0)}, course) == Approx(60.0));
}

}  // namespace leat::tests
