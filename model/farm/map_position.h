// Where a place lies on the map, seen from above.
#pragma once

#include <variant>

#include "model/quantity/quantity.h"
#include "model/text/source_position.h"

namespace leat::model {

/// On the globe [degrees, WGS 84]: longitude -180 to 180, latitude -90 to 90.
struct MapDegrees {
  double longitude = 0.0;
  double latitude = 0.0;
};

/// On the farm's own map: east and north of its zero, each within 100 km.
struct MapOffset {
  Length east;
  Length north;
};

/// The `map` of a place. All places of one farm use the same kind.
struct MapPosition {
  std::variant<MapDegrees, MapOffset> value;
  SourcePosition position = {};  // of the pair in the file

  [[nodiscard]] bool is_in_degrees() const { return std::holds_alternative<MapDegrees>(value); }
};

}  // namespace leat::model
