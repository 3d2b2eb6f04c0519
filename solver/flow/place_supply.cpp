#include "solver/flow/place_supply.h"

#include <algorithm>
#include <vector>

#include "solver/network/farm_stores.h"

namespace leat::solver {

namespace {

/// A spring's yield, what may be taken from a creek [m3/s].
std::optional<double> has_to_give(const model::Place& place, std::optional<model::Month> month) {
  const model::MonthSeries<Flow>* const supply = model::supply_of(place);
  return supply != nullptr ? std::optional(in_cubic_metres_per_second(supply->at(month)))
                           : std::nullopt;
}

bool falls(const model::Place& place, const PlaceAnswer& water) {
  return model::is_tank(place) && !model::settles(place) &&
         -water.delivered_m3_s >= least_fall_m3_s;
}

}  // namespace

void tell_supply(const model::Farm& farm, SteadyAnswer& answer) {
  bool any_falls = false;
  for (std::size_t i = 0; i < answer.places.size(); ++i) {
    answer.places[i].has_to_give_m3_s = has_to_give(farm.places[i], answer.month);
    any_falls = any_falls || falls(farm.places[i], answer.places[i]);
  }
  if (!any_falls || answer.load_case == LoadCase::Static) {
    return;
  }
  std::vector<StoreNote> unheard;
  const FarmStores stores(farm, {}, unheard);
  for (std::size_t i = 0; i < answer.places.size(); ++i) {
    PlaceAnswer& water = answer.places[i];
    if (!falls(farm.places[i], water)) {
      continue;
    }
    if (const StoreLaw* const tank = stores.find(i)) {
      const double mouth_m = lowest_mouth_m(farm, *tank).value_or(tank->bottom_m);
      water.stands_m3 = std::max(0.0, tank->area_m2 * (tank->start_m - mouth_m));
    }
    water.lasts_s = water.stands_m3.value_or(0.0) / -water.delivered_m3_s;
  }
}

}  // namespace leat::solver
