#include "solver/day/farm_of_day.h"

#include <algorithm>
#include <type_traits>

#include "solver/network/network_of_farm.h"

namespace leat::solver {

namespace {

using model::AnyOf;

template <class Value>
bool put(model::MonthSeries<Value>& series, Value value) {
  if (series.by_month[0] == value && !series.varies) {
    return false;
  }
  series = model::MonthSeries<Value>::constant(value);
  return true;
}

/// Lets a trough with a need, or an outlet with a wish, want a flow.
void want(model::Place& place, Flow flow) {
  const auto wanted = model::MonthSeries<Flow>::constant(flow);
  std::visit(
      Overload{
          [&](model::Trough& trough) {
            if (!std::holds_alternative<model::NoNeed>(trough.need)) {
              trough.need = model::RateNeed{wanted};
            }
          },
          [&](model::Outlet& outlet) {
            if (outlet.wished) {
              outlet.wished = wanted;
            }
          },
          [](const AnyOf<model::Spring, model::Creek, model::Pond, model::Tank, model::Tee> auto&) {
          }},
      place.data);
}

/// Holds a tank or pond at a level; one that is down at its lowest mouth gives no more.
void hold(model::Place& place,
          const StoreLaw& store,
          std::optional<double> mouth_m,
          double level_m) {
  const bool is_empty = mouth_m && level_m < *mouth_m + empty_within_m;
  std::visit(Overload{[&](model::Tank& tank) {
                        tank.settles = is_empty;
                        tank.depth = metres(std::max(0.0, level_m - store.bottom_m));
                      },
                      [&](model::Pond& pond) {
                        const double surface_m =
                            is_empty ? std::min(level_m, *mouth_m - empty_within_m) : level_m;
                        pond.surface =
                            model::MonthSeries<Elevation>::constant(elevation_metres(surface_m));
                      },
                      [](const AnyOf<model::Spring,
                                     model::Creek,
                                     model::Trough,
                                     model::Outlet,
                                     model::Tee> auto&) {}},
             place.data);
}

}  // namespace

bool put_day(const DayValues& values, const FarmStores& stores, model::Farm& farm) {
  bool deep = put(farm.site.water, celsius(values.water_C));
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const PlaceDay& day = values.places[i];
    std::visit(
        Overload{[&](model::Spring& spring) {
                   if (day.yield_m3_s) {
                     (void)put(spring.yield, cubic_metres_per_second(*day.yield_m3_s));
                   }
                 },
                 [&](AnyOf<model::Creek, model::Pond> auto& water) {
                   if (day.surface_m && stores.find(i) == nullptr) {
                     deep = put(water.surface, elevation_metres(*day.surface_m)) || deep;
                   }
                 },
                 [](const AnyOf<model::Tank, model::Trough, model::Outlet, model::Tee> auto&) {}},
        farm.places[i].data);
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
    want(moment.places[i], cubic_metres_per_second(wanted_m3_s[i]));
    if (const StoreLaw* store = stores.find(i)) {
      hold(moment.places[i], *store, lowest_mouth_m(farm, *store), levels_m[stores.of_place(i)]);
    }
  }
  return moment;
}

}  // namespace leat::solver
