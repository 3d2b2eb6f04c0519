// Room: an answer in, the bytes of a picture out.
// Positions on the map as metres to the east and north, and back to degrees.
#pragma once

#include "model/farm/map_position.h"

namespace leat::render {

/// East and north of some zero [m].
struct PlanePoint {
  double east_m = 0.0;
  double north_m = 0.0;
};

/// How long a degree is on the ground [m], on the ellipsoid WGS 84 (NIMA TR 8350.2).
struct DegreeLength {
  double of_longitude_m = 0.0;
  double of_latitude_m = 0.0;
};
/// At a latitude [degrees, -90 to 90]: the radii of curvature along the meridian and across it.
[[nodiscard]] DegreeLength degree_length(double latitude_degrees);

/// How far `to` lies from `from`; both of one kind (std::logic_error otherwise). Degrees by the
/// degree's length at the middle latitude: within some 1e-5 of the way up to 50 km. The shorter way
/// round the globe.
[[nodiscard]] PlanePoint offset_between(const model::MapPosition& from,
                                        const model::MapPosition& to);

/// The degrees that lie `offset` from `origin` (latitude within 85 degrees, offset within 100 km):
/// what offset_between measures the other way. Longitude -180 to 180.
[[nodiscard]] model::MapDegrees degrees_at(const model::MapDegrees& origin,
                                           const model::MapOffset& offset);

}  // namespace leat::render
