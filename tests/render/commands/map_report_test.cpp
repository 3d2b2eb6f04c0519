// A farm as GeoJSON: what RFC 7946 asks of it, and what the farm put there.
#include "render/commands/map/map_report.h"

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "render/cli/run.h"
#include "render/commands/solve/json_report.h"
#include "tests/render/run_words.h"
#include "tests/render/sample_farm.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

using Json = nlohmann::ordered_json;
using model::MapDegrees;
using model::MapOffset;
using model::MapPosition;
using model::UnitSystem;

/// What RFC 7946 forbids, as sentences; empty for a sound FeatureCollection of points and lines.
class GeoJsonCheck {
 public:
  explicit GeoJsonCheck(const Json& object) {
    expect(object.is_object(), "a GeoJSON text is an object (section 2)");
    expect(object.value("type", "") == "FeatureCollection", "the type is FeatureCollection");
    expect(object.contains("features") && object["features"].is_array(), "3.3: features is a list");
    // Section 7.1: words of other types do not belong here; section 4: crs is gone.
    for (const char* word : {"coordinates", "geometries", "geometry", "properties", "crs"}) {
      expect(!object.contains(word), fmt::format("7.1: the collection holds '{}'", word));
    }
    if (object.contains("features")) {
      for (const Json& feature : object["features"]) {
        check_feature(feature);
      }
    }
  }

  std::vector<std::string> faults;

 private:
  void expect(bool holds, const std::string& sentence) {
    if (!holds) {
      faults.push_back(sentence);
    }
  }

  void check_feature(const Json& feature) {
    expect(feature.value("type", "") == "Feature", "3.2: a feature's type is Feature");
    expect(feature.contains("properties") &&
               (feature["properties"].is_object() || feature["properties"].is_null()),
           "3.2: properties is an object or null");
    expect(!feature.contains("id") || feature["id"].is_string() || feature["id"].is_number(),
           "3.2: an id is a text or a number");
    for (const char* word : {"coordinates", "geometries", "features"}) {
      expect(!feature.contains(word), fmt::format("7.1: a feature holds '{}'", word));
    }
    expect(feature.contains("geometry"), "3.2: a feature has a geometry");
    if (feature.contains("geometry")) {
      check_geometry(feature["geometry"]);
    }
  }

  void check_geometry(const Json& geometry) {
    const std::string type = geometry.value("type", "");
    const Json places = geometry.value("coordinates", Json());
    expect(!geometry.contains("geometry") && !geometry.contains("properties") &&
               !geometry.contains("features"),
           "7.1: a geometry holds words of a feature");
    if (type == "Point") {
      check_position(places);
    } else if (type == "LineString") {
      check_line(places);
    } else if (type == "MultiLineString") {
      expect(places.is_array(), "3.1.5: lines are a list");
      for (const Json& line : places) {
        check_line(line);
      }
    } else {
      expect(false, fmt::format("1.4: '{}' is no type of a geometry used here", type));
    }
  }

  void check_line(const Json& line) {
    expect(line.is_array() && line.size() >= 2, "3.1.4: a line has two or more positions");
    for (const Json& position : line) {
      check_position(position);
    }
  }

  void check_position(const Json& position) {
    const bool is_sound = position.is_array() && (position.size() == 2 || position.size() == 3) &&
                          std::all_of(position.begin(), position.end(), [](const Json& number) {
                            return number.is_number();
                          });
    expect(is_sound, "3.1.1: a position is two or three numbers");
  }
};

std::string faults_of(const Json& object) {
  std::string told;
  for (const std::string& fault : GeoJsonCheck(object).faults) {
    told += fault + '\n';
  }
  return told;
}

/// The sample farm with the places on the map at the given positions, in order.
model::Farm farm_at(const std::vector<std::optional<MapPosition>>& positions) {
  model::Farm farm = sample_farm();
  for (std::size_t i = 0; i < positions.size(); ++i) {
    farm.places[i].map = positions[i];
  }
  return farm;
}

MapPosition degrees(double longitude, double latitude) {
  return {MapDegrees{longitude, latitude}};
}

MapPosition offset(double east_m, double north_m) {
  return {MapOffset{metres(east_m), metres(north_m)}};
}

Json map_of(const model::Farm& farm) {
  return Json::parse(map_geojson(
      farm, sample_answer(), map_remarks(farm, UnitSystem::Metric), UnitSystem::Metric));
}

/// The sample farm about a hundred metres wide.
model::Farm farm_in_degrees() {
  return farm_at({degrees(7.25, 46.4),
                  degrees(7.251, 46.4003),
                  degrees(7.2515, 46.4),
                  degrees(7.2508, 46.4001)});
}

TEST_CASE("a farm with all its places on the map is sound GeoJSON") {
  const Json map = map_of(farm_in_degrees());
  CHECK(faults_of(map) == "");
  REQUIRE(map["features"].size() == 7);
  CHECK(map["features"][0]["geometry"].dump() == R"({"type":"Point","coordinates":[7.25,46.4]})");
  CHECK(map["features"][4]["geometry"].dump() ==
        R"({"type":"LineString","coordinates":[[7.25,46.4],[7.251,46.4003]]})");
  CHECK(map["positions"]["written"] == "degrees");
  CHECK(map["positions"]["origin"].is_null());
}

TEST_CASE("the checker of GeoJSON sees what is wrong") {
  Json map = map_of(farm_in_degrees());
  map["coordinates"] = Json::array();
  map["features"][0]["geometry"]["type"] = "Dot";
  map["features"][1]["geometry"]["coordinates"] = Json::array({7.0});
  map["features"][4]["geometry"]["coordinates"].erase(1);
  map["features"][5].erase("geometry");
  map["features"][6]["id"] = Json::array();
  CHECK(GeoJsonCheck(map).faults.size() == 6);
}

TEST_CASE("a place and a pipe on the map carry what solve says of them, and their flags") {
  const model::Farm farm = farm_in_degrees();
  const Json map = map_of(farm);
  const Json solved = Json::parse(solve_json(farm, sample_answer(), UnitSystem::Metric));
  for (std::size_t i = 0; i < 7; ++i) {
    Json properties = map["features"][i]["properties"];
    const Json flags = properties["flags"];
    properties.erase("flags");
    CHECK(properties == (i < 4 ? solved["places"][i] : solved["pipes"][i - 4]));
    CHECK(flags == (i == 2 ? solved["flags"] : Json::array()));
    CHECK(map["features"][i]["id"] == properties["name"]);
  }
  CHECK(map["flags"] == solved["flags"]);
}

TEST_CASE("a place without a position is left off the map with its pipes, and named") {
  const model::Farm farm =
      farm_at({degrees(7.25, 46.4), std::nullopt, degrees(7.2515, 46.4), degrees(7.2508, 46.4001)});
  const Json map = map_of(farm);
  CHECK(faults_of(map) == "");
  CHECK(map["features"].size() == 3);
  CHECK(map["places_left_out"] == Json::array({"gate tee"}));
  CHECK(map["pipes_left_out"] == Json::array({"main", "to north", "to pond"}));
}

TEST_CASE("the farm's own metres stay metres and say so") {
  const Json map = map_of(farm_at({offset(0.0, 0.0), offset(60.0, -40.0)}));
  CHECK(faults_of(map) == "");
  CHECK(map["positions"]["given"] == "local metres");
  CHECK(map["positions"]["written"] == "local metres");
  CHECK(map["features"][1]["geometry"]["coordinates"] == Json::array({60.0, -40.0}));
}

TEST_CASE("metres from an origin become degrees") {
  model::Farm farm = farm_at({offset(0.0, 0.0), offset(788.468, -1111.32)});
  farm.site.map_origin = MapDegrees{-1.0, 45.0};
  const Json map = map_of(farm);
  CHECK(map["positions"]["given"] == "local metres");
  CHECK(map["positions"]["written"] == "degrees");
  CHECK(map["positions"]["origin"] == Json::array({-1.0, 45.0}));
  CHECK(map["features"][0]["geometry"]["coordinates"] == Json::array({-1.0, 45.0}));
  // A hundredth of a degree each way: at 45 degrees 788.47 m and 1 111.32 m (from memory).
  const Json place = map["features"][1]["geometry"]["coordinates"];
  CHECK(place[0].get<double>() == Approx(-0.99).margin(2e-6));
  CHECK(place[1].get<double>() == Approx(44.99).margin(2e-6));
}

TEST_CASE("a pipe over the meridian of 180 degrees is cut there") {
  const Json map = map_of(farm_at({degrees(179.9995, -16.8), degrees(-179.9995, -16.8002)}));
  CHECK(faults_of(map) == "");
  const Json line = map["features"][2]["geometry"];
  CHECK(line["type"] == "MultiLineString");
  REQUIRE(line["coordinates"].size() == 2);
  CHECK(line["coordinates"][0][1][0] == 180.0);
  CHECK(line["coordinates"][1][0][0] == -180.0);
  CHECK(line["coordinates"][0][1][1].get<double>() == Approx(-16.8001));
  CHECK(line["coordinates"][1][1] == Json::array({-179.9995, -16.8002}));
}

TEST_CASE("a pipe shorter than the way between its ends on the map is doubted") {
  // The pipe is 100 m long, the way 1 km: longitude and latitude are easily swapped.
  const model::Farm farm = farm_at({offset(0.0, 0.0), offset(600.0, 800.0)});
  const MapRemarks remarks = map_remarks(farm, UnitSystem::Metric);
  REQUIRE(remarks.doubts.size() == 1);
  CHECK(remarks.doubts[0].find("'main' is 100") != std::string::npos);
  CHECK(remarks.doubts[0].find("1000.0 m apart") != std::string::npos);
  CHECK(map_remarks(farm_at({offset(0.0, 0.0), offset(70.0, 90.0)}), UnitSystem::Metric)
            .doubts.empty());
}

std::string demo(const std::string& name) {
  return std::string(LEAT_SOURCE_DIR) + "/networks-demo/" + name;
}

TEST_CASE("leat map writes a file once, prints it for a dash, and ends as solve does") {
  const TemporaryFolder folder;
  const std::string farm = demo("22-farm-on-the-map.yaml");
  const std::string file = folder.file("farm.geojson");
  const Outcome first = run_words({"map", farm, "-o", file});
  CHECK(first.status == 1);  // the bank trough is dry
  CHECK(first.out.empty());
  CHECK(run_words({"map", farm, "-o", file}).status == 2);
  CHECK(run_words({"map", farm, "-o", file, "--replace"}).status == 1);
  CHECK(run_words({"map", farm, "-o", folder.file("farm.xyz")}).status == 2);
  CHECK(run_words({"map", farm}).status == 2);
  const Outcome printed = run_words({"map", farm, "-o", "-"});
  CHECK(printed.out == folder.content("farm.geojson"));
  CHECK(faults_of(Json::parse(printed.out)) == "");
  CHECK(run_words({"map", farm, "-o", "-", "--month", "May"}).status == 0);
  const Outcome json = run_words({"map", farm, "-o", file, "--replace", "--json"});
  CHECK(Json::parse(json.out)["wrote"] == file);
}

TEST_CASE("a farm with no place on the map has no map") {
  const Outcome map = run_words({"map", demo("01-over-the-rise.yaml"), "-o", "-"});
  CHECK(map.status == 2);
  CHECK(map.err.find("no place of the farm") != std::string::npos);
  const Outcome drawn =
      run_words({"draw", demo("01-over-the-rise.yaml"), "--by-position", "-o", "-"});
  CHECK(drawn.status == 2);
  CHECK(drawn.err.find("no place of the farm") != std::string::npos);
}

}  // namespace

}  // namespace leat::render
