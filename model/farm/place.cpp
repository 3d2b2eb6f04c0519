#include "model/farm/place.h"

#include <iterator>
#include <type_traits>

namespace leat::model {
namespace {

template <class... Kinds>
bool is_any_of(const Place& place) {
  return (std::holds_alternative<Kinds>(place.data) || ...);
}

const MonthSeries<Flow>* told(const std::optional<MonthSeries<Flow>>& flow) {
  return flow ? &*flow : nullptr;
}

void shift(std::optional<Elevation>& level, const std::optional<Elevation>& from, Length by) {
  if (from) {
    level = *from + by;
  }
}

void shift(MonthSeries<Elevation>& levels, const MonthSeries<Elevation>& from, Length by) {
  for (std::size_t month = 0; month < levels.by_month.size(); ++month) {
    levels.by_month[month] = from.by_month[month] + by;
  }
}

void shift(std::vector<Dated<Elevation>>& record,
           const std::vector<Dated<Elevation>>& from,
           Length by) {
  for (std::size_t i = 0; i < record.size(); ++i) {
    record[i].value = from[i].value + by;
  }
}

void raise(Spring& spring, const Spring& from, Length by) {
  spring.overflow = from.overflow + by;
  spring.intake = from.intake + by;
}

void raise(Creek& creek, const Creek& from, Length by) {
  shift(creek.surface, from.surface, by);
  shift(creek.surface_record, from.surface_record, by);
  shift(creek.intake, from.intake, by);
}

void raise(Pond& pond, const Pond& from, Length by) {
  shift(pond.surface, from.surface, by);
  shift(pond.surface_record, from.surface_record, by);
  shift(pond.intake, from.intake, by);
  shift(pond.spills, from.spills, by);
  if (auto* const table = std::get_if<std::vector<StageArea>>(&pond.shape)) {
    const auto& rows = std::get<std::vector<StageArea>>(from.shape);
    for (std::size_t i = 0; i < table->size(); ++i) {
      (*table)[i].level = rows[i].level + by;
    }
  }
}

void raise(Tank& tank, const Tank& from, Length by) {
  tank.floor = from.floor + by;
  shift(tank.intake, from.intake, by);
}

void raise(Trough& trough, const Trough& from, Length by) {
  trough.float_level = from.float_level + by;
}

void raise(Outlet& outlet, const Outlet& from, Length by) {
  outlet.level = from.level + by;
}

void raise(Tee& tee, const Tee& from, Length by) {
  tee.elevation = from.elevation + by;
}

}  // namespace

const char* kind_word(const Place& place) {
  constexpr const char* words[] = {"spring", "creek", "pond", "tank", "trough", "outlet", "tee"};
  static_assert(std::size(words) == std::variant_size_v<PlaceData>);
  return words[place.data.index()];
}

bool is_same_kind(const Place& one, const Place& other) {
  return one.data.index() == other.data.index();
}

bool is_open_water(const Place& place) {
  return is_any_of<Spring, Creek, Pond, Tank>(place);
}

bool is_source(const Place& place) {
  return is_any_of<Spring, Creek>(place);
}

bool is_spring(const Place& place) {
  return is_any_of<Spring>(place);
}

bool is_natural_water(const Place& place) {
  return is_any_of<Creek, Pond>(place);
}

bool stores_water(const Place& place) {
  return is_any_of<Pond, Tank>(place);
}

bool is_creek(const Place& place) {
  return is_any_of<Creek>(place);
}

bool is_pond(const Place& place) {
  return is_any_of<Pond>(place);
}

bool is_tank(const Place& place) {
  return is_any_of<Tank>(place);
}

bool takes_from_pipes(const Place& place) {
  return is_any_of<Trough, Outlet>(place);
}

bool is_trough(const Place& place) {
  return is_any_of<Trough>(place);
}

bool is_outlet(const Place& place) {
  return is_any_of<Outlet>(place);
}

bool is_point_of_use(const Place& place) {
  return is_any_of<Trough, Outlet, Pond>(place);
}

bool is_tee(const Place& place) {
  return is_any_of<Tee>(place);
}

Elevation level_of(const Place& place, std::optional<Month> month) {
  return std::visit(Overload{[](const Spring& spring) { return spring.overflow; },
                             [&](const Creek& creek) { return creek.surface.at(month); },
                             [&](const Pond& pond) { return pond.surface.at(month); },
                             [](const Tank& tank) { return tank.floor; },
                             [](const Trough& trough) { return trough.float_level; },
                             [](const Outlet& outlet) { return outlet.level; },
                             [](const Tee& tee) { return tee.elevation; }},
                    place.data);
}

std::optional<Elevation> surface_of(const Place& place, std::optional<Month> month) {
  if (!is_open_water(place) || settles(place)) {
    return std::nullopt;
  }
  const auto* const tank = std::get_if<Tank>(&place.data);
  return tank != nullptr ? tank->floor + tank->depth : level_of(place, month);
}

const MonthSeries<Elevation>* monthly_surface_of(const Place& place) {
  using Surface = const MonthSeries<Elevation>*;
  return std::visit(
      Overload{
          [](const AnyOf<Creek, Pond> auto& water) -> Surface { return &water.surface; },
          [](const AnyOf<Spring, Tank, Trough, Outlet, Tee> auto&) -> Surface { return nullptr; }},
      place.data);
}

std::optional<Elevation> intake_of(const Place& place) {
  using Intake = std::optional<Elevation>;
  return std::visit(
      Overload{
          [](const AnyOf<Spring, Creek, Pond, Tank> auto& water) -> Intake { return water.intake; },
          [](const AnyOf<Trough, Outlet, Tee> auto&) -> Intake { return std::nullopt; }},
      place.data);
}

std::optional<Elevation> brim_of(const Place& place) {
  using Brim = std::optional<Elevation>;
  return std::visit(Overload{[](const Pond& pond) { return pond.spills; },
                             [](const Tank& tank) -> Brim { return tank.floor + tank.full; },
                             [](const AnyOf<Spring, Creek, Trough, Outlet, Tee> auto&) -> Brim {
                               return std::nullopt;
                             }},
                    place.data);
}

std::optional<Elevation> float_level_of(const Place& place) {
  using Level = std::optional<Elevation>;
  return std::visit(Overload{[](const Tank& tank) -> Level {
                               return tank.float_inlet ? Level(tank.floor + *tank.float_inlet)
                                                       : std::nullopt;
                             },
                             [](const Trough& trough) -> Level { return trough.float_level; },
                             [](const AnyOf<Spring, Creek, Pond, Outlet, Tee> auto&) -> Level {
                               return std::nullopt;
                             }},
                    place.data);
}

std::optional<Pressure> float_closes_against(const Place& place) {
  const auto* const trough = std::get_if<Trough>(&place.data);
  return trough == nullptr ? std::nullopt : trough->closes_against;
}

void raise_levels(Place& place, const Place& from, Length by) {
  std::visit(
      [&](auto& kind) {
        raise(kind, std::get<std::remove_reference_t<decltype(kind)>>(from.data), by);
      },
      place.data);
}

const MonthSeries<Flow>* inflow_of(const Place& place) {
  const auto* const creek = std::get_if<Creek>(&place.data);
  return creek != nullptr ? told(creek->flow) : yield_of(place);
}

const MonthSeries<Flow>* supply_of(const Place& place) {
  const auto* const creek = std::get_if<Creek>(&place.data);
  return creek != nullptr ? told(creek->spare) : yield_of(place);
}

const MonthSeries<Flow>* yield_of(const Place& place) {
  const auto* const spring = std::get_if<Spring>(&place.data);
  return spring != nullptr ? &spring->yield : nullptr;
}

const MonthSeries<Flow>* wish_of(const Place& place) {
  const auto* const outlet = std::get_if<Outlet>(&place.data);
  return outlet != nullptr ? told(outlet->wished) : nullptr;
}

const Need* need_of_stock(const Place& place) {
  const auto* const trough = std::get_if<Trough>(&place.data);
  return trough != nullptr ? &trough->need : nullptr;
}

const HerdNeed* stock_at_water(const Place& place) {
  const auto* const pond = std::get_if<Pond>(&place.data);
  return pond != nullptr ? &pond->stock : nullptr;
}

Duration drinking_time_of(const Place& place) {
  const auto* const trough = std::get_if<Trough>(&place.data);
  return trough != nullptr ? trough->within : hours(24.0);
}

std::optional<Volume> volume_held_by(const Place& place) {
  using Held = std::optional<Volume>;
  return std::visit(
      Overload{
          [](const Tank& tank) -> Held {
            return tank.area
                       ? Held(cubic_metres(in_square_metres(*tank.area) * in_metres(tank.full)))
                       : std::nullopt;
          },
          [](const Trough& trough) { return trough.holds; },
          [](const AnyOf<Spring, Creek, Pond, Outlet, Tee> auto&) -> Held { return std::nullopt; }},
      place.data);
}

bool settles(const Place& place) {
  const auto* const tank = std::get_if<Tank>(&place.data);
  return tank != nullptr && tank->settles;
}

bool serves_household(const Place& place) {
  const auto* const outlet = std::get_if<Outlet>(&place.data);
  return outlet != nullptr && outlet->household;
}

}  // namespace leat::model
