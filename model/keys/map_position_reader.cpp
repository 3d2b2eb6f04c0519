#include "model/keys/map_position_reader.h"

#include <fmt/format.h>

#include "model/keys/value_reader.h"

namespace leat::model {
namespace {

bool is_pair(const YamlNode& node) {
  return node.kind == YamlNode::Kind::List && node.items.size() == 2;
}

bool is_bare_number(const YamlNode& node) {
  return node.kind == YamlNode::Kind::Text &&
         std::holds_alternative<double>(parse_number(node.text));
}

constexpr Range<double> longitude_range{-180.0, 180.0, "from -180 to 180 degrees", true};
constexpr Range<double> latitude_range{
    -90.0, 90.0, "from -90 to 90 degrees; the longitude comes first", true};
constexpr Range<double> origin_latitude_range{
    -85.0, 85.0, "from -85 to 85 degrees; the longitude comes first", true};

std::optional<MapDegrees> read_degrees(const YamlNode& pair,
                                       std::string_view what,
                                       const Range<double>& latitudes,
                                       ProblemList& problems) {
  for (const YamlNode& item : pair.items) {
    if (item.kind == YamlNode::Kind::Text && !is_bare_number(item)) {
      // The common hint, to leave the unit off, would turn metres into degrees.
      problems.add("wrong-shape",
                   item.position,
                   fmt::format("{} holds '{}' where bare degrees are wanted", what, item.text),
                   "write longitude and latitude such as [7.25, -46.4]: south and west negative");
      return std::nullopt;
    }
  }
  const auto longitude = read_within(pair.items[0],
                                     fmt::format("first value of {}", what),
                                     parse_number,
                                     longitude_range,
                                     problems);
  const auto latitude = read_within(
      pair.items[1], fmt::format("second value of {}", what), parse_number, latitudes, problems);
  if (!longitude || !latitude) {
    return std::nullopt;
  }
  return MapDegrees{*longitude, *latitude};
}

std::optional<MapOffset> read_offset(const YamlNode& pair,
                                     std::string_view what,
                                     ProblemList& problems) {
  // Read as levels are: a coordinate may be negative.
  constexpr Range<Elevation> range{
      elevation_metres(-1e5), elevation_metres(1e5), "from -100 km to 100 km", true};
  const auto east = read_within(
      pair.items[0], fmt::format("first value of {}", what), parse_elevation, range, problems);
  const auto north = read_within(
      pair.items[1], fmt::format("second value of {}", what), parse_elevation, range, problems);
  if (!east || !north) {
    return std::nullopt;
  }
  return MapOffset{*east - Elevation(), *north - Elevation()};
}

const char* kind_told(const MapPosition& position) {
  return position.is_in_degrees() ? "degrees" : "lengths";
}

}  // namespace

std::optional<MapPosition> read_map_position(const YamlNode& node,
                                             std::string_view what,
                                             ProblemList& problems) {
  if (!is_pair(node)) {
    report_wrong_shape(node, what, "a pair [longitude, latitude] or [x, y] is", problems);
    return std::nullopt;
  }
  if (is_bare_number(node.items[0])) {
    const auto degrees = read_degrees(node, what, latitude_range, problems);
    return degrees ? std::optional(MapPosition{*degrees, node.position}) : std::nullopt;
  }
  const auto offset = read_offset(node, what, problems);
  return offset ? std::optional(MapPosition{*offset, node.position}) : std::nullopt;
}

std::optional<MapDegrees> read_map_origin(const YamlNode& node,
                                          std::string_view what,
                                          ProblemList& problems) {
  if (!is_pair(node)) {
    report_wrong_shape(node, what, "a pair [longitude, latitude] is", problems);
    return std::nullopt;
  }
  return read_degrees(node, what, origin_latitude_range, problems);
}

void check_map_kinds(const std::vector<Place>& places, ProblemList& problems) {
  const Place* first = nullptr;
  for (const Place& place : places) {
    if (!place.map) {
      continue;
    }
    if (first == nullptr) {
      first = &place;
    }
    if (place.map->is_in_degrees() != first->map->is_in_degrees()) {
      problems.add("map-kinds-mixed",
                   place.map->position,
                   fmt::format("map of {} '{}' is in {}, that of {} '{}' (line {}) in {}",
                               kind_word(place),
                               place.name,
                               kind_told(*place.map),
                               kind_word(*first),
                               first->name,
                               first->map->position.line,
                               kind_told(*first->map)),
                   "write all places of a farm in degrees, or all in lengths");
    }
  }
}

}  // namespace leat::model
