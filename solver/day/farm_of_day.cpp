#include "solver/day/farm_of_day.h"

#include <algorithm>
#include <type_traits>

#include "solver/network/network_of_farm.h"

namespace leat::solver {

namespace {

template <class Value>
bool put(model::MonthSeries<Value>& series, Value value) {
  if (series.by_month[0] == value && !series.varies) {
    return false;
  }
  series = model::MonthSeries<Value>::constant(value);
  return true;
}

}  // namespace

bool put_day(const DayValues& values, const FarmStores& stores, model::Farm& farm) {
  bool deep = put(farm.site.water, celsius(values.water_C));
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const PlaceDay& day = values.places[i];
    model::PlaceData& data = farm.places[i].data;
    auto* spring = std::get_if<model::Spring>(&data);
    if (spring != nullptr && day.yield_m3_s) {
      (void)put(spring->yield, cubic_metres_per_second(*day.yield_m3_s));
    }
    if (!day.surface_m) {
      continue;
    }
    auto* creek = std::get_if<model::Creek>(&data);
    auto* pond = std::get_if<model::Pond>(&data);
    if (creek != nullptr) {
      deep = put(creek->surface, elevation_metres(*day.surface_m)) || deep;
    } else if (pond != nullptr && stores.find(i) == nullptr) {
      deep = put(pond->surface, elevation_metres(*day.surface_m)) || deep;
    }
  }
  return deep;
}

model::Farm farm_at(const model::Farm& farm,
                    const DayValues& values,
                    const FarmStores& stores,
                    const std::vector<double>& levels_m,
                    const std::vector<double>& wanted_m3_s) {
  model::Farm moment = farm;
  (void)put_day(values, stores, moment);
  for (std::size_t i = 0; i < moment.places.size(); ++i) {
    model::PlaceData& data = moment.places[i].data;
    const auto wanted = model::MonthSeries<Flow>::constant(cubic_metres_per_second(wanted_m3_s[i]));
    if (auto* trough = std::get_if<model::Trough>(&data)) {
      if (!std::holds_alternative<model::NoNeed>(trough->need)) {
        trough->need = model::RateNeed{wanted};
      }
    } else if (auto* outlet = std::get_if<model::Outlet>(&data)) {
      if (outlet->wished) {
        outlet->wished = wanted;
      }
    }
    const StoreLaw* store = stores.find(i);
    if (store == nullptr) {
      continue;
    }
    const double level_m = levels_m[stores.of_place(i)];
    const std::optional<double> mouth_m = lowest_mouth_m(farm, *store);
    const bool is_empty = mouth_m && level_m < *mouth_m + empty_within_m;
    if (auto* tank = std::get_if<model::Tank>(&data)) {
      tank->settles = is_empty;
      tank->depth = metres(std::max(0.0, level_m - store->bottom_m));
    } else if (auto* pond = std::get_if<model::Pond>(&data)) {
      const double surface_m = is_empty ? std::min(level_m, *mouth_m - empty_within_m) : level_m;
      pond->surface = model::MonthSeries<Elevation>::constant(elevation_metres(surface_m));
    }
  }
  return moment;
}

}  // namespace leat::solver
