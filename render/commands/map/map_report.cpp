#include "render/commands/map/map_report.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

#include <fmt/format.h>

#include "render/commands/solve/answer_json.h"
#include "render/pictures/map_plane.h"
#include "render/words/number_text.h"

namespace leat::render {

namespace {

/// A position as GeoJSON wants it: longitude or east first.
struct Position {
  double x = 0.0;
  double y = 0.0;
};

Json position_json(const Position& position) {
  return Json::array({json_number(position.x), json_number(position.y)});
}

bool is_written_in_degrees(const model::Farm& farm, const model::MapPosition& map) {
  return map.is_in_degrees() || farm.site.map_origin;
}

Position written_position(const model::Farm& farm, const model::MapPosition& map) {
  if (const auto* const degrees = std::get_if<model::MapDegrees>(&map.value)) {
    return {degrees->longitude, degrees->latitude};
  }
  const auto& offset = std::get<model::MapOffset>(map.value);
  if (farm.site.map_origin) {
    const model::MapDegrees degrees = degrees_at(*farm.site.map_origin, offset);
    return {degrees.longitude, degrees.latitude};
  }
  return {in_metres(offset.east), in_metres(offset.north)};
}

Json line_json(const Position& from, const Position& to) {
  Json geometry;
  geometry["type"] = "LineString";
  geometry["coordinates"] = Json::array({position_json(from), position_json(to)});
  return geometry;
}

/// A line over the meridian of 180 degrees, cut there as RFC 7946 section 3.1.9 asks; else map
/// programs draw it right round the globe.
Json cut_line_json(const Position& from, const Position& to) {
  constexpr double half_turn = 180.0;
  const double edge = from.x > 0.0 ? half_turn : -half_turn;
  const double before_edge = std::abs(edge - from.x);
  const double after_edge = std::abs(edge + to.x);
  const double way = before_edge + after_edge;
  const double share = way > 0.0 ? before_edge / way : 0.0;
  const double y = from.y + share * (to.y - from.y);
  Json geometry;
  geometry["type"] = "MultiLineString";
  geometry["coordinates"] =
      Json::array({Json::array({position_json(from), position_json({edge, y})}),
                   Json::array({position_json({-edge, y}), position_json(to)})});
  return geometry;
}

Json pipe_geometry(const model::Farm& farm, const model::Pipe& pipe) {
  const model::MapPosition& start = *farm.places.at(pipe.from).map;
  const Position from = written_position(farm, start);
  const Position to = written_position(farm, *farm.places.at(pipe.to).map);
  constexpr double half_turn = 180.0;
  const bool crosses_edge =
      is_written_in_degrees(farm, start) && std::abs(from.x - to.x) > half_turn;
  return crosses_edge ? cut_line_json(from, to) : line_json(from, to);
}

Json point_geometry(const model::Farm& farm, const model::MapPosition& map) {
  Json geometry;
  geometry["type"] = "Point";
  geometry["coordinates"] = position_json(written_position(farm, map));
  return geometry;
}

/// `properties` get the flags raised there; names are unique among places and pipes together.
Json feature_json(const std::string& name,
                  Json geometry,
                  Json properties,
                  const solver::SteadyAnswer& answer,
                  model::UnitSystem units) {
  properties["flags"] = Json::array();
  for (const solver::Finding& finding : answer.flags) {
    if (finding.where == name) {
      properties["flags"].push_back(flag_json(finding, units));
    }
  }
  Json feature;
  feature["type"] = "Feature";
  feature["id"] = name;
  feature["geometry"] = std::move(geometry);
  feature["properties"] = std::move(properties);
  return feature;
}

bool is_on_map(const model::Farm& farm, const model::Pipe& pipe) {
  return farm.places.at(pipe.from).map && farm.places.at(pipe.to).map;
}

/// How the positions were given and written. Not named `coordinates`, `geometry` or `properties`:
/// RFC 7946 section 7.1 keeps those words from a FeatureCollection.
Json positions_json(const model::Farm& farm) {
  const auto first = std::find_if(farm.places.begin(),
                                  farm.places.end(),
                                  [](const model::Place& place) { return place.map.has_value(); });
  const bool given_in_degrees = first != farm.places.end() && first->map->is_in_degrees();
  const bool has_origin = !given_in_degrees && farm.site.map_origin;
  Json object;
  object["given"] = given_in_degrees ? "degrees" : "local metres";
  object["written"] = given_in_degrees || has_origin ? "degrees" : "local metres";
  object["origin"] =
      has_origin ? position_json({farm.site.map_origin->longitude, farm.site.map_origin->latitude})
                 : Json(nullptr);
  if (given_in_degrees) {
    object["text"] = "longitude and latitude, WGS 84, as the farm file gives them";
  } else if (has_origin) {
    object["text"] =
        "longitude and latitude, WGS 84, from metres east and north of the origin by the length of "
        "a degree at the middle latitude";
  } else {
    object["text"] =
        "metres east and north of the farm's own zero, not longitude and latitude; with `map "
        "origin` in the site they become degrees";
  }
  return object;
}

void add_remarks(Json& object, const MapRemarks& remarks) {
  object["places_left_out"] = remarks.places_left_out;
  object["pipes_left_out"] = remarks.pipes_left_out;
  object["doubts"] = remarks.doubts;
}

/// A pipe may be longer than its way as the crow flies, never shorter: then a position or the
/// length is wrong. Two readings of a phone, 10 m each, are let pass (common practice, no source).
std::optional<std::string> doubt_about(const model::Farm& farm,
                                       const model::Pipe& pipe,
                                       model::UnitSystem units) {
  const PlanePoint way =
      offset_between(*farm.places.at(pipe.from).map, *farm.places.at(pipe.to).map);
  const double way_m = std::hypot(way.east_m, way.north_m);
  constexpr double two_readings_m = 20.0;
  if (way_m <= in_metres(pipe.length) + two_readings_m) {
    return std::nullopt;
  }
  return fmt::format(
      "pipe '{}' is {} {} long, but its ends lie {} {} apart on the map: one of them may be "
      "wrong",
      pipe.name,
      length_number_text(pipe.length, units),
      length_unit(units),
      length_number_text(metres(way_m), units),
      length_unit(units));
}

}  // namespace

MapRemarks map_remarks(const model::Farm& farm, model::UnitSystem units) {
  MapRemarks remarks;
  for (const model::Place& place : farm.places) {
    if (!place.map) {
      remarks.places_left_out.push_back(place.name);
    }
  }
  for (const model::Pipe& pipe : farm.pipes) {
    if (!is_on_map(farm, pipe)) {
      remarks.pipes_left_out.push_back(pipe.name);
    } else if (const auto doubt = doubt_about(farm, pipe, units)) {
      remarks.doubts.push_back(*doubt);
    }
  }
  return remarks;
}

std::string map_geojson(const model::Farm& farm,
                        const solver::SteadyAnswer& answer,
                        const MapRemarks& remarks,
                        model::UnitSystem units) {
  Json object;
  object["type"] = "FeatureCollection";
  object.update(head_of_answer("map", farm, answer));
  object["positions"] = positions_json(farm);
  add_remarks(object, remarks);
  object["features"] = Json::array();
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const model::Place& place = farm.places[i];
    if (place.map) {
      object["features"].push_back(feature_json(place.name,
                                                point_geometry(farm, *place.map),
                                                place_json(place, answer.places.at(i)),
                                                answer,
                                                units));
    }
  }
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    const model::Pipe& pipe = farm.pipes[i];
    if (is_on_map(farm, pipe)) {
      object["features"].push_back(feature_json(pipe.name,
                                                pipe_geometry(farm, pipe),
                                                pipe_json(farm, pipe, answer.pipes.at(i)),
                                                answer,
                                                units));
    }
  }
  object["flags"] = flag_list(answer.flags, units);
  return json_text(object);
}

std::string map_json(const model::Farm& farm,
                     const solver::SteadyAnswer& answer,
                     const MapRemarks& remarks,
                     const std::string& written,
                     model::UnitSystem units) {
  Json object = head_of_answer("map", farm, answer);
  object["wrote"] = written;
  object["positions"] = positions_json(farm);
  add_remarks(object, remarks);
  object["flags"] = flag_list(answer.flags, units);
  return json_text(object);
}

}  // namespace leat::render
