#include "render/commands/read/place_reading.h"

#include <algorithm>
#include <cstddef>
#include <variant>

#include "model/catalogue/need.h"
#include "solver/hydraulics/air_pressure.h"

namespace leat::render {

namespace {

PlaceFlow of_series(const char* word, const std::optional<model::MonthSeries<Flow>>& series) {
  PlaceFlow flow;
  flow.word = word;
  flow.is_given = series.has_value();
  if (series) {
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
  if (const auto* const trough = std::get_if<model::Trough>(&place.data)) {
    return of_trough(farm, *trough);
  }
  if (const auto* const spring = std::get_if<model::Spring>(&place.data)) {
    return of_series("yields", spring->yield);
  }
  if (const auto* const creek = std::get_if<model::Creek>(&place.data)) {
    return of_series("may give", creek->spare);
  }
  if (const auto* const outlet = std::get_if<model::Outlet>(&place.data)) {
    return of_series("wished", outlet->wished);
  }
  return {};
}

std::optional<Flow> single_flow(const PlaceFlow& flow, std::optional<model::Month> month) {
  if (!flow.is_given || (flow.varies && !month)) {
    return std::nullopt;
  }
  return flow.by_month[static_cast<std::size_t>(month.value_or(model::Month::Jan))];
}

std::optional<Volume> daily_volume(const model::Place& place, std::optional<Flow> rate) {
  const auto* const trough = std::get_if<model::Trough>(&place.data);
  if (trough == nullptr || !rate || std::holds_alternative<model::RateNeed>(trough->need)) {
    return std::nullopt;
  }
  return cubic_metres(in_cubic_metres_per_second(*rate) * in_seconds(trough->within));
}

Elevation level_of(const model::Place& place, std::optional<model::Month> month) {
  struct Level {
    std::optional<model::Month> month;
    Elevation operator()(const model::Spring& spring) const { return spring.overflow; }
    Elevation operator()(const model::Creek& creek) const { return creek.surface.at(month); }
    Elevation operator()(const model::Pond& pond) const { return pond.surface.at(month); }
    Elevation operator()(const model::Tank& tank) const { return tank.floor; }
    Elevation operator()(const model::Trough& trough) const { return trough.float_level; }
    Elevation operator()(const model::Outlet& outlet) const { return outlet.level; }
    Elevation operator()(const model::Tee& tee) const { return tee.elevation; }
  };
  return std::visit(Level{month}, place.data);
}

bool is_trough(const model::Place& place) {
  return std::holds_alternative<model::Trough>(place.data);
}

}  // namespace leat::render
