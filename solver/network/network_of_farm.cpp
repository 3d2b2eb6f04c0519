#include "solver/network/network_of_farm.h"

#include <algorithm>
#include <cmath>

#include "solver/hydraulics/air_pressure.h"
#include "solver/network/network_builder.h"

namespace leat::solver {

Surroundings surroundings_of(const model::Farm& farm, std::optional<model::Month> month) {
  Surroundings surroundings;
  surroundings.water = hydraulics::water_at(farm.site.water.at(month));
  surroundings.air_pressure_Pa =
      in_pascals(farm.site.air_pressure.value_or(hydraulics::air_pressure_at(farm.site.altitude)));
  return surroundings;
}

std::optional<double> surface_m(const model::Place& place, std::optional<model::Month> month) {
  const std::optional<Elevation> surface = model::surface_of(place, month);
  return surface ? std::optional(in_metres(*surface)) : std::nullopt;
}

double mouth_in_store_m(const model::Farm& farm, const model::Pipe& pipe, const StoreLaw& store) {
  const model::Place& place = farm.places[pipe.from];
  const bool has_intake = model::stores_water(place) && model::intake_of(place);
  if (pipe.path.empty() && !has_intake) {
    return store.bottom_m;
  }
  return std::max(store.bottom_m, in_metres(model::from_end_level(farm, pipe, std::nullopt)));
}

std::unique_ptr<FarmNetwork> network_of(const model::Farm& farm,
                                        const Surroundings& surroundings,
                                        const NetworkOptions& options) {
  return NetworkBuilder(farm, surroundings, options).build();
}

}  // namespace leat::solver
