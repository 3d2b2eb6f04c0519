// Places on the map: the `map` key of a place, the `map origin` of the site.
#pragma once

#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "model/keys/map_reader.h"

namespace leat::model {

/// [longitude, latitude] in degrees, or [x, y] with a unit of length; nothing where it is neither
/// (codes wrong-shape, out-of-range and those of a length).
[[nodiscard]] std::optional<MapPosition> read_map_position(const YamlNode& node,
                                                           std::string_view what,
                                                           ProblemList& problems);

/// The longitude and latitude at which the farm's own map has its zero. Near a pole there is no
/// telling east from north, so the latitude is within 85 degrees (out-of-range).
[[nodiscard]] std::optional<MapDegrees> read_map_origin(const YamlNode& node,
                                                        std::string_view what,
                                                        ProblemList& problems);

/// Checks that all places of the farm are told in degrees or all in lengths (map-kinds-mixed).
void check_map_kinds(const std::vector<Place>& places, ProblemList& problems);

}  // namespace leat::model
