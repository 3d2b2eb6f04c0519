#include "model/keys/farm_checks.h"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/support/farm_problems.h"

namespace {

using namespace leat;
using namespace leat::model;

Place place(std::string name, PlaceData data) {
  Place result;
  result.name = std::move(name);
  result.data = std::move(data);
  return result;
}

Pond pond(double surface_m) {
  Pond result;
  result.surface = MonthSeries<Elevation>::constant(elevation_metres(surface_m));
  return result;
}

Tee tee(double elevation_m) {
  Tee result;
  result.elevation = elevation_metres(elevation_m);
  return result;
}

Trough trough(double float_m) {
  Trough result;
  result.float_level = elevation_metres(float_m);
  return result;
}

Pipe pipe(std::string name, std::size_t from, std::size_t to, double length_m) {
  Pipe result;
  result.name = std::move(name);
  result.from = from;
  result.to = to;
  result.length = metres(length_m);
  return result;
}

std::vector<PathPoint> path(std::vector<std::pair<double, double>> points) {
  std::vector<PathPoint> result;
  for (const auto& [distance, elevation] : points) {
    PathPoint point;
    point.distance = metres(distance);
    point.elevation = elevation_metres(elevation);
    result.push_back(point);
  }
  return result;
}

/// Pond at 50 m, tee at 45 m, trough at 40 m in one line.
Farm line_of_three() {
  Farm farm;
  farm.places = {
      place("pool", pond(50.0)), place("gate tee", tee(45.0)), place("north", trough(40.0))};
  farm.pipes = {pipe("upper", 0, 1, 60.0), pipe("lower", 1, 2, 60.0)};
  return farm;
}

std::vector<std::string> codes(const Farm& farm) {
  std::vector<std::string> result;
  for (const Diagnostic& problem : leat::tests::check_farm(farm)) {
    result.push_back(problem.code);
  }
  return result;
}

using Codes = std::vector<std::string>;

}  // namespace

TEST_CASE("A line from a pond over a tee to a trough fits together") {
  CHECK(codes(line_of_three()) == Codes{});
}

TEST_CASE("A path may miss its tee by 5 cm and no more") {
  Farm farm = line_of_three();
  farm.pipes[0].path = path({{0.0, 49.0}, {60.0, 45.05}});
  CHECK(codes(farm) == Codes{});
  farm.pipes[0].path = path({{0.0, 49.0}, {60.0, 45.051}});
  CHECK(codes(farm) == Codes{"path-misses-place"});
  farm.pipes[0].path = path({{0.0, 49.0}, {60.0, 44.949}});
  CHECK(codes(farm) == Codes{"path-misses-place"});
}

TEST_CASE("A path that misses its tee is told with both levels in the farm's own units") {
  Farm farm = line_of_three();
  farm.pipes[0].path = path({{0.0, 49.0}, {60.0, 46.0}});
  CHECK(leat::tests::check_farm(farm).at(0).text.find(
            "46.00 m, but tee 'gate tee' is at 45.00 m") != std::string::npos);
  farm.show = UnitSystem::Us;
  CHECK(leat::tests::check_farm(farm).at(0).text.find(
            "150.92 ft, but tee 'gate tee' is at 147.64 ft") != std::string::npos);
}

TEST_CASE("In open water without an intake the path says how deep the pipe's end lies") {
  Farm farm = line_of_three();
  farm.pipes[0].path = path({{0.0, 47.0}, {60.0, 45.0}});
  CHECK(codes(farm) == Codes{});
  Pond with_intake = pond(50.0);
  with_intake.intake = elevation_metres(49.0);
  farm.places[0].data = with_intake;
  CHECK(codes(farm) == Codes{"path-misses-place"});
}

TEST_CASE("An intake says nothing about a pipe that ends in that water") {
  Farm farm = line_of_three();
  Pond low = pond(30.0);
  low.intake = elevation_metres(29.0);
  farm.places[2] = place("low pond", low);
  farm.pipes[1].path = path({{0.0, 45.0}, {60.0, 31.0}});
  CHECK(codes(farm) == Codes{});
}

TEST_CASE("A pipe is at least as long as its rise") {
  Farm farm = line_of_three();
  farm.pipes[0].length = metres(5.0);
  CHECK(codes(farm) == Codes{});
  farm.pipes[0].length = metres(4.9);
  CHECK(codes(farm) == Codes{"pipe-too-short"});
}

TEST_CASE("The highest month of a creek decides whether a pipe is long enough") {
  Farm farm = line_of_three();
  Creek creek;
  creek.surface = MonthSeries<Elevation>::constant(elevation_metres(50.0));
  creek.surface.by_month[3] = elevation_metres(120.0);
  farm.places[0].data = creek;
  CHECK(codes(farm) == Codes{"pipe-too-short"});
}

TEST_CASE("A trough takes one pipe and needs one") {
  Farm farm = line_of_three();
  farm.pipes.push_back(pipe("second", 0, 2, 60.0));
  CHECK(codes(farm) == Codes{"too-many-pipes"});
  farm = line_of_three();
  farm.places.push_back(place("south", trough(40.0)));
  CHECK(codes(farm) == Codes{"no-pipe"});
}

TEST_CASE("Open water without a pipe is a pond like any other") {
  Farm farm = line_of_three();
  farm.places.push_back(place("duck pond", pond(10.0)));
  CHECK(codes(farm) == Codes{});
}

TEST_CASE("Places that only each other reach are one island, told once") {
  Farm farm = line_of_three();
  farm.places.push_back(place("far tee", tee(20.0)));
  farm.places.push_back(place("south", trough(18.0)));
  farm.pipes.push_back(pipe("far", 3, 4, 60.0));
  const std::vector<Diagnostic> problems = leat::tests::check_farm(farm);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].code == "island");
  CHECK(problems[0].text ==
        "tee 'far tee' and trough 'south' are joined to no spring, creek, pond or tank");
}

TEST_CASE("One-ways and shut valves make no island") {
  Farm farm = line_of_three();
  farm.pipes[0].one_way = true;
  Valve shut;
  shut.shut = true;
  farm.pipes[1].valve = shut;
  CHECK(codes(farm) == Codes{});
}

TEST_CASE("A pump joins places as a pipe does") {
  Farm farm = line_of_three();
  farm.places.push_back(place("high tee", tee(60.0)));
  farm.places.push_back(place("high trough", trough(58.0)));
  farm.pipes.push_back(pipe("high", 3, 4, 60.0));
  ProblemList problems("farm.yaml");
  check_connections(farm, {{0, 3}}, problems);
  CHECK(problems.count() == 0);
}

TEST_CASE("The ends of pipes stand where intake, path, ends and rim put them") {
  Farm farm = line_of_three();
  CHECK(in_metres(from_end_level(farm, farm.pipes[0], std::nullopt)) == 50.0);
  CHECK(in_metres(to_end_level(farm, farm.pipes[0], std::nullopt)) == 45.0);
  Pond deep = pond(50.0);
  deep.intake = elevation_metres(48.5);
  farm.places[0].data = deep;
  CHECK(in_metres(from_end_level(farm, farm.pipes[0], std::nullopt)) == 48.5);
  farm.pipes[0].path = path({{0.0, 48.0}, {60.0, 45.0}});
  CHECK(in_metres(from_end_level(farm, farm.pipes[0], std::nullopt)) == 48.0);

  Tank tank;
  tank.floor = elevation_metres(38.0);
  tank.full = metres(2.0);
  farm.places[2] = place("tank", tank);
  CHECK(in_metres(to_end_level(farm, farm.pipes[1], std::nullopt)) == 40.0);
  farm.pipes[1].enters = TankEntry::Bottom;
  CHECK(in_metres(to_end_level(farm, farm.pipes[1], std::nullopt)) == 38.0);
  farm.pipes[1].path = path({{0.0, 45.0}, {60.0, 39.0}});
  CHECK(in_metres(to_end_level(farm, farm.pipes[1], std::nullopt)) == 39.0);
  farm.pipes[1].ends = elevation_metres(39.5);
  CHECK(in_metres(to_end_level(farm, farm.pipes[1], std::nullopt)) == 39.5);
}

TEST_CASE("A creek's pipe starts at the surface of the month asked for") {
  Farm farm = line_of_three();
  Creek creek;
  creek.surface = MonthSeries<Elevation>::constant(elevation_metres(50.0));
  creek.surface.varies = true;
  creek.surface.by_month[7] = elevation_metres(49.0);
  farm.places[0].data = creek;
  CHECK(in_metres(from_end_level(farm, farm.pipes[0], Month::Aug)) == 49.0);
  CHECK(in_metres(from_end_level(farm, farm.pipes[0], Month::Sep)) == 50.0);
}

TEST_CASE("Places are called by their kind") {
  Farm farm = line_of_three();
  CHECK(std::string(kind_word(farm.places[0])) == "pond");
  CHECK(std::string(kind_word(farm.places[1])) == "tee");
  CHECK(std::string(kind_word(farm.places[2])) == "trough");
  CHECK(std::string(kind_word(place("a", Spring{}))) == "spring");
  CHECK(std::string(kind_word(place("a", Creek{}))) == "creek");
  CHECK(std::string(kind_word(place("a", Tank{}))) == "tank");
  CHECK(std::string(kind_word(place("a", Outlet{}))) == "outlet");
  CHECK(is_open_water(farm.places[0]));
  CHECK_FALSE(is_open_water(farm.places[1]));
}
