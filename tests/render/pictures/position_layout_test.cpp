// Where boxes stand in a drawing by position.
#include "render/pictures/schematic/position_layout.h"

#include <cstddef>
#include <map>
#include <regex>
#include <string>

#include <catch2/catch.hpp>

#include "model/keys/farm_file.h"
#include "render/pictures/schematic/schematic.h"
#include "solver/steady/steady.h"
#include "tests/render/sample_farm.h"

namespace leat::render {

namespace {

model::MapPosition at(double east_m, double north_m) {
  return {model::MapOffset{metres(east_m), metres(north_m)}};
}

/// upper north-west of the gate tee, the trough east of it, the pond south.
model::Farm farm_on_the_map() {
  model::Farm farm = sample_farm();
  farm.places[0].map = at(-60.0, 70.0);
  farm.places[1].map = at(0.0, 0.0);
  farm.places[2].map = at(80.0, 5.0);
  farm.places[3].map = at(-5.0, -60.0);
  return farm;
}

std::string drawn(const model::Farm& farm, DrawFormat format) {
  const DrawResult result = draw_schematic(
      farm, sample_answer(), {format, model::UnitSystem::Metric, Arrangement::ByPosition});
  REQUIRE(result.problem.empty());
  return result.bytes;
}

/// The first corner of each box's outline, by its id. SVG counts y downward.
std::map<std::string, PagePoint> corners(const std::string& svg) {
  std::map<std::string, PagePoint> found;
  const std::regex box(
      "<g id=\"((?:place|pipe)_[0-9]+)\" class=\"node[^]*?"
      "(?:points=\"|d=\"M|<text [^>]*? x=\")(-?[0-9.]+)(?:,|\" y=\")(-?[0-9.]+)");
  for (auto match = std::sregex_iterator(svg.begin(), svg.end(), box);
       match != std::sregex_iterator();
       ++match) {
    found[(*match)[1]] = {std::stod((*match)[2]), std::stod((*match)[3])};
  }
  return found;
}

TEST_CASE("a drawing by position has north up and west to the left") {
  const auto places = corners(drawn(farm_on_the_map(), DrawFormat::Svg));
  REQUIRE(places.count("place_0") == 1);
  REQUIRE(places.count("place_3") == 1);
  CHECK(places.at("place_0").y < places.at("place_1").y);
  CHECK(places.at("place_1").y < places.at("place_3").y);
  CHECK(places.at("place_0").x < places.at("place_1").x);
  CHECK(places.at("place_1").x < places.at("place_2").x);
}

TEST_CASE("a drawing by position keeps its title, its key and every line") {
  const std::string svg = drawn(farm_on_the_map(), DrawFormat::Svg);
  for (const char* part : {"Alder Hollow",
                           "not a survey",
                           "north up",
                           "double outline",
                           "pipe_0_from",
                           "pipe_2_to",
                           "place_3"}) {
    CAPTURE(part);
    CHECK(svg.find(part) != std::string::npos);
  }
  CHECK(svg == drawn(farm_on_the_map(), DrawFormat::Svg));
  CHECK(drawn(farm_on_the_map(), DrawFormat::Dot).find("pos=") != std::string::npos);
}

TEST_CASE("a place that is not on the map stands between its neighbours and is named") {
  model::Farm farm = farm_on_the_map();
  farm.places[1].map.reset();
  const PlacePoints places = place_points(farm);
  REQUIRE(places.guessed == std::vector<std::size_t>{1});
  // The middle of (0, 0), (140, -65) and (55, -130), counted from the spring.
  CHECK(places.points[1].east_m == Approx(65.0));
  CHECK(places.points[1].north_m == Approx(-65.0));
  CHECK(drawn(farm, DrawFormat::Svg).find("gate tee") != std::string::npos);
}

TEST_CASE("places at one point or in one row are drawn apart") {
  model::Farm farm = farm_on_the_map();
  for (model::Place& place : farm.places) {
    place.map = at(3.0, 4.0);
  }
  CHECK(corners(drawn(farm, DrawFormat::Svg)).size() == 7);
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    farm.places[i].map = at(10.0 * static_cast<double>(i), 0.0);
  }
  CHECK(corners(drawn(farm, DrawFormat::Svg)).size() == 7);
}

TEST_CASE("a farm without any place on the map has no points") {
  CHECK(place_points(sample_farm()).points.empty());
}

}  // namespace

}  // namespace leat::render
