#include "solver/network/farm_stores.h"

#include <algorithm>

#include "solver/network/network_of_farm.h"

namespace leat::solver {

namespace {

std::optional<hydrology::PondVolume> volume_of(const model::Pond& pond, double top_m) {
  if (const auto* rows = std::get_if<std::vector<model::StageArea>>(&pond.shape)) {
    std::vector<hydrology::LevelAndArea> table;
    for (const model::StageArea& row : *rows) {
      table.push_back({in_metres(row.level), in_square_metres(row.area)});
    }
    return hydrology::PondVolume::from_table(table);
  }
  if (const auto* prism = std::get_if<model::PrismShape>(&pond.shape)) {
    return hydrology::PondVolume::prism(top_m,
                                        in_metres(prism->top_length),
                                        in_metres(prism->top_width),
                                        prism->side_run,
                                        in_metres(prism->depth));
  }
  if (const auto* cone = std::get_if<model::ConeShape>(&pond.shape)) {
    return hydrology::PondVolume::cone(
        top_m, in_metres(cone->diameter), cone->side_run, in_metres(cone->depth));
  }
  return std::nullopt;
}

/// The surface a pond has on a day: as measured on the last date before, else the month's.
double surface_on(const model::Pond& pond, model::Date on) {
  double level_m = in_metres(pond.surface.at(model::month_of(on)));
  for (const model::Dated<Elevation>& measured : pond.surface_record) {
    if (measured.on <= on) {
      level_m = in_metres(measured.value);
    }
  }
  return level_m;
}

std::optional<StoreLaw> pond_store(const model::Place& place,
                                   const model::Pond& pond,
                                   model::Date on,
                                   std::vector<StoreNote>& notes) {
  StoreLaw store;
  store.start_m = surface_on(pond, on);
  // A dug pond's top is where it spills; where that is not said it is taken as full to the top now.
  const double top_m = pond.spills ? in_metres(*pond.spills) : store.start_m;
  store.pond = volume_of(pond, top_m);
  if (!store.pond) {
    return std::nullopt;
  }
  store.bottom_m = store.pond->bottom_level_m();
  store.brim_m = pond.spills ? in_metres(*pond.spills) : store.pond->top_level_m();
  if (!pond.spills) {
    notes.push_back({place.name, StoreNote::Taken::SpillsAtTop});
  }
  if (store.start_m > store.brim_m) {
    notes.push_back({place.name, StoreNote::Taken::BrimFull});
    store.start_m = store.brim_m;
  }
  if (store.start_m < store.bottom_m) {
    notes.push_back({place.name, StoreNote::Taken::Empty});
    store.start_m = store.bottom_m;
  }
  return store;
}

std::optional<StoreLaw> tank_store(const model::Place& place,
                                   const model::Tank& tank,
                                   std::vector<StoreNote>& notes) {
  if (!tank.area) {
    notes.push_back({place.name, StoreNote::Taken::HoldsNothing});
    return std::nullopt;
  }
  StoreLaw store;
  store.area_m2 = in_square_metres(*tank.area);
  store.bottom_m = in_metres(tank.floor);
  store.brim_m = in_metres(tank.floor + tank.full);
  store.start_m = tank.settles ? store.brim_m : in_metres(tank.floor + tank.depth);
  if (tank.settles) {
    notes.push_back({place.name, StoreNote::Taken::Full});
  }
  return store;
}

std::optional<StoreLaw> trough_store(const model::Trough& trough) {
  // A float that nothing tells the need of is never satisfied: such a trough stays an open end.
  if (!trough.holds || std::holds_alternative<model::NoNeed>(trough.need)) {
    return std::nullopt;
  }
  StoreLaw store;
  store.area_m2 = in_cubic_metres(*trough.holds) / trough_depth_m;
  store.start_m = in_metres(trough.float_level);
  store.bottom_m = store.start_m - trough_depth_m;
  store.brim_m = store.start_m + trough_freeboard_m;
  return store;
}

}  // namespace

nodal::Stored StoreLaw::at(double level_m) const {
  if (pond) {
    return {pond->volume_m3(level_m), pond->area_m2(level_m)};
  }
  return {area_m2 * (level_m - bottom_m), area_m2};
}

FarmStores::FarmStores(const model::Farm& farm, model::Date on, std::vector<StoreNote>& notes) {
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const model::Place& place = farm.places[i];
    using Store = std::optional<StoreLaw>;
    Store store = std::visit(
        Overload{
            [&](const model::Pond& pond) { return pond_store(place, pond, on, notes); },
            [&](const model::Tank& tank) { return tank_store(place, tank, notes); },
            [](const model::Trough& trough) { return trough_store(trough); },
            [](const model::AnyOf<model::Spring, model::Creek, model::Outlet, model::Tee> auto&)
                -> Store { return std::nullopt; }},
        place.data);
    of_place_.push_back(store ? laws_.size() : no_index);
    if (store) {
      store->place = i;
      laws_.push_back(*std::move(store));
    }
  }
}

const StoreLaw* FarmStores::find(std::size_t place) const {
  const std::size_t index = of_place_[place];
  return index == no_index ? nullptr : &laws_[index];
}

std::optional<double> lowest_mouth_m(const model::Farm& farm, const StoreLaw& store) {
  std::optional<double> lowest;
  for (const model::Pipe& pipe : farm.pipes) {
    if (pipe.from == store.place) {
      const double mouth_m = mouth_in_store_m(farm, pipe, store);
      lowest = lowest ? std::min(*lowest, mouth_m) : mouth_m;
    }
  }
  return lowest;
}

}  // namespace leat::solver
