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
  if (const auto* spring = std::get_if<model::Spring>(&place.data)) {
    return in_metres(spring->overflow);
  }
  if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
    return in_metres(creek->surface.at(month));
  }
  if (const auto* pond = std::get_if<model::Pond>(&place.data)) {
    return in_metres(pond->surface.at(month));
  }
  const auto* tank = std::get_if<model::Tank>(&place.data);
  if (tank != nullptr && !tank->settles) {
    return in_metres(tank->floor + tank->depth);
  }
  return std::nullopt;
}

double mouth_in_store_m(const model::Farm& farm, const model::Pipe& pipe, const StoreLaw& store) {
  const model::PlaceData& data = farm.places[pipe.from].data;
  const auto* pond = std::get_if<model::Pond>(&data);
  const auto* tank = std::get_if<model::Tank>(&data);
  const bool has_intake = (pond != nullptr && pond->intake) || (tank != nullptr && tank->intake);
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
