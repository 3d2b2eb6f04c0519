#include "model/farm/farm.h"

namespace leat::model {
namespace {

/// The level at which water stands, or is left standing, at a place without a level for this end.
Elevation water_level(const Place& place, std::optional<Month> month) {
  if (const auto* const spring = std::get_if<Spring>(&place.data)) {
    return spring->overflow;
  }
  if (const auto* const creek = std::get_if<Creek>(&place.data)) {
    return creek->surface.at(month);
  }
  if (const auto* const pond = std::get_if<Pond>(&place.data)) {
    return pond->surface.at(month);
  }
  if (const auto* const tank = std::get_if<Tank>(&place.data)) {
    return tank->floor;
  }
  if (const auto* const trough = std::get_if<Trough>(&place.data)) {
    return trough->float_level;
  }
  if (const auto* const outlet = std::get_if<Outlet>(&place.data)) {
    return outlet->level;
  }
  return std::get<Tee>(place.data).elevation;
}

/// The intake of open water, where one is known.
std::optional<Elevation> intake_of(const Place& place) {
  if (const auto* const spring = std::get_if<Spring>(&place.data)) {
    return spring->intake;
  }
  if (const auto* const creek = std::get_if<Creek>(&place.data)) {
    return creek->intake;
  }
  if (const auto* const pond = std::get_if<Pond>(&place.data)) {
    return pond->intake;
  }
  if (const auto* const tank = std::get_if<Tank>(&place.data)) {
    return tank->intake;
  }
  return std::nullopt;
}

}  // namespace

const char* kind_word(const Place& place) {
  constexpr const char* words[] = {"spring", "creek", "pond", "tank", "trough", "outlet", "tee"};
  return words[place.data.index()];
}

bool is_open_water(const Place& place) {
  return std::holds_alternative<Spring>(place.data) || std::holds_alternative<Creek>(place.data) ||
         std::holds_alternative<Pond>(place.data) || std::holds_alternative<Tank>(place.data);
}

Elevation from_end_level(const Farm& farm, const Pipe& pipe, std::optional<Month> month) {
  const Place& place = farm.places[pipe.from];
  if (!pipe.path.empty()) {
    return pipe.path.front().elevation;
  }
  return intake_of(place).value_or(water_level(place, month));
}

Elevation to_end_level(const Farm& farm, const Pipe& pipe, std::optional<Month> month) {
  const Place& place = farm.places[pipe.to];
  if (!is_open_water(place)) {
    return water_level(place, month);
  }
  if (pipe.ends) {
    return *pipe.ends;
  }
  if (!pipe.path.empty()) {
    return pipe.path.back().elevation;
  }
  const auto* const tank = std::get_if<Tank>(&place.data);
  if (tank != nullptr && pipe.enters.value_or(TankEntry::Rim) == TankEntry::Rim) {
    return tank->floor + tank->full;
  }
  return water_level(place, month);
}

}  // namespace leat::model
