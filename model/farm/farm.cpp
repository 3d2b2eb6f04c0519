#include "model/farm/farm.h"

#include <algorithm>

namespace leat::model {

std::optional<std::size_t> place_named(const Farm& farm, std::string_view name) {
  const auto found = std::find_if(farm.places.begin(),
                                  farm.places.end(),
                                  [name](const Place& place) { return place.name == name; });
  return found == farm.places.end()
             ? std::nullopt
             : std::optional(static_cast<std::size_t>(found - farm.places.begin()));
}

Elevation from_end_level(const Farm& farm, const Pipe& pipe, std::optional<Month> month) {
  const Place& place = farm.places[pipe.from];
  if (!pipe.path.empty()) {
    return pipe.path.front().elevation;
  }
  return intake_of(place).value_or(level_of(place, month));
}

Elevation to_end_level(const Farm& farm, const Pipe& pipe, std::optional<Month> month) {
  const Place& place = farm.places[pipe.to];
  if (!is_open_water(place)) {
    return level_of(place, month);
  }
  if (pipe.ends) {
    return *pipe.ends;
  }
  if (!pipe.path.empty()) {
    return pipe.path.back().elevation;
  }
  if (is_tank(place) && pipe.enters.value_or(TankEntry::Rim) == TankEntry::Rim) {
    return *brim_of(place);
  }
  return level_of(place, month);
}

}  // namespace leat::model
