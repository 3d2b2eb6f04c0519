#include "render/commands/read/place_reading.h"

#include <algorithm>
#include <cstddef>
#include <variant>

#include "model/catalogue/need.h"
#include "solver/hydraulics/air_pressure.h"

namespace leat::render {

namespace {

PlaceFlow of_series(const char* word, const model::MonthSeries<Flow>* series) {
  PlaceFlow flow;
  flow.word = word;
  flow.is_given = series != nullptr;
  if (series != nullptr) {
    flow.varies = series->varies;
    std::copy(series->by_month.begin(), series->by_month.end(), flow.by_month.begin());
  }
  return flow;
}

PlaceFlow of_trough(const model::Farm& farm, const model::Trough& trough) {
  PlaceFlow flow;
  flow.word = "needs";
  flow.varies = model::need_varies(trough, farm.air);
  for (std::size_t month = 0; month < flow.by_month.size(); ++month) {
    flow.by_month[month] = model::need_rate(trough, farm.air, static_cast<model::Month>(month));
  }
  flow.is_given = flow.by_month.front().has_value();
  return flow;
}

}  // namespace

Pressure air_pressure_of(const model::Site& site) {
  return site.air_pressure.value_or(hydraulics::air_pressure_at(site.altitude));
}

PlaceFlow flow_of(const model::Farm& farm, const model::Place& place) {
  return std::visit(
      Overload{[&](const model::Trough& trough) { return of_trough(farm, trough); },
               [&](const model::Spring&) { return of_series("yields", supply_of(place)); },
               [&](const model::Creek&) { return of_series("may give", supply_of(place)); },
               [&](const model::Outlet&) { return of_series("wished", wish_of(place)); },
               [](const model::AnyOf<model::Pond, model::Tank, model::Tee> auto&) {
                 return PlaceFlow{};
               }},
      place.data);
}

std::optional<Flow> single_flow(const PlaceFlow& flow, std::optional<model::Month> month) {
  if (!flow.is_given || (flow.varies && !month)) {
    return std::nullopt;
  }
  return flow.by_month[static_cast<std::size_t>(month.value_or(model::Month::Jan))];
}

std::optional<Volume> daily_volume(const model::Place& place, std::optional<Flow> rate) {
  const model::Need* const need = model::need_of_stock(place);
  if (need == nullptr || !rate || std::holds_alternative<model::RateNeed>(*need)) {
    return std::nullopt;
  }
  return cubic_metres(in_cubic_metres_per_second(*rate) *
                      in_seconds(model::drinking_time_of(place)));
}

}  // namespace leat::render
