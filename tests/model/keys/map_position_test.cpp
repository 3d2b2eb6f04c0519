// Places on the map as the farm file tells them.
#include <string>
#include <variant>

#include <catch2/catch.hpp>

#include "model/keys/farm_file.h"

namespace leat::model {
namespace {

LoadedFarm farm_with(const std::string& site, const std::string& creek, const std::string& trough) {
  return load_farm(
      "farm: Test\nsite: {" + site + "}\ncreeks: {pool: {surface: 50 m" + creek +
          "}}\ntroughs: {north: {float: 40 m" + trough +
          "}}\npipes: {line: {from: pool, to: north, size: 1 in SIDR 15, length: 60 m}}\n",
      "test.yaml");
}

TEST_CASE("degrees on the map are longitude, then latitude") {
  const LoadedFarm loaded = farm_with("", ", map: [-122.5, 38.25]", "");
  REQUIRE(loaded.farm);
  REQUIRE(loaded.farm->places[0].map);
  const auto& degrees = std::get<MapDegrees>(loaded.farm->places[0].map->value);
  CHECK(degrees.longitude == -122.5);
  CHECK(degrees.latitude == 38.25);
  CHECK_FALSE(loaded.farm->places[1].map);
}

TEST_CASE("lengths on the map are east, then north, of an origin the site may give") {
  const LoadedFarm loaded =
      farm_with("map origin: [7.25, -46.4]", ", map: [-10 m, 100 ft]", ", map: [0 m, 1 km]");
  REQUIRE(loaded.farm);
  const auto& offset = std::get<MapOffset>(loaded.farm->places[0].map->value);
  CHECK(in_metres(offset.east) == Approx(-10.0));
  CHECK(in_metres(offset.north) == Approx(30.48));
  REQUIRE(loaded.farm->site.map_origin);
  CHECK(loaded.farm->site.map_origin->latitude == -46.4);
}

TEST_CASE("one farm's places are on the map in degrees or in lengths") {
  const LoadedFarm loaded = farm_with("", ", map: [12.5, 47]", ", map: [3 m, 4 m]");
  CHECK_FALSE(loaded.farm);
  REQUIRE(loaded.problems.size() == 1);
  CHECK(loaded.problems[0].code == "map-kinds-mixed");
  CHECK(loaded.problems[0].position.line == 4);
}

TEST_CASE("an origin at a pole is refused") {
  CHECK_FALSE(farm_with("map origin: [0, 89]", "", "").farm);
  CHECK(farm_with("map origin: [0, 85]", "", "").farm);
}

}  // namespace
}  // namespace leat::model
