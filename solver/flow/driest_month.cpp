#include "solver/flow/driest_month.h"

#include "model/catalogue/need.h"
#include "solver/flow/place_answers.h"

namespace leat::solver {

namespace {

/// Water that comes to the farm in a month, and whether that changes.
struct Supply {
  double flow_m3_s = 0.0;
  bool varies = false;
};

Supply supply_in(const model::Farm& farm, model::Month month) {
  Supply supply;
  for (const model::Place& place : farm.places) {
    if (const model::MonthSeries<Flow>* const inflow = model::inflow_of(place)) {
      supply.flow_m3_s += in_cubic_metres_per_second(inflow->at(month));
      supply.varies = supply.varies || inflow->varies;
    }
  }
  return supply;
}

Supply need_in(const model::Farm& farm, model::Month month) {
  Supply need;
  for (const model::Place& place : farm.places) {
    need.flow_m3_s += need_of(farm, place, month).value_or(0.0);
    need.varies = need.varies || need_varies(farm, place);
  }
  return need;
}

bool water_varies(const model::Place& place) {
  const model::MonthSeries<Elevation>* const surface = model::monthly_surface_of(place);
  const model::MonthSeries<Flow>* const supply = model::supply_of(place);
  return (surface != nullptr && surface->varies) || (supply != nullptr && supply->varies);
}

}  // namespace

bool depends_on_month(const model::Farm& farm) {
  if (farm.site.water.varies || supply_in(farm, model::Month::Jan).varies ||
      need_in(farm, model::Month::Jan).varies) {
    return true;
  }
  for (const model::Place& place : farm.places) {
    if (water_varies(place)) {
      return true;
    }
  }
  return false;
}

std::optional<model::Month> driest_month(const model::Farm& farm) {
  if (!depends_on_month(farm)) {
    return std::nullopt;
  }
  const bool by_supply = supply_in(farm, model::Month::Jan).varies;
  model::Month found = model::Month::Jan;
  for (std::size_t i = 1; i < model::month_names.size(); ++i) {
    const auto month = static_cast<model::Month>(i);
    const bool drier = by_supply
                           ? supply_in(farm, month).flow_m3_s < supply_in(farm, found).flow_m3_s
                           : need_in(farm, month).flow_m3_s > need_in(farm, found).flow_m3_s;
    if (drier) {
      found = month;
    }
  }
  return found;
}

}  // namespace leat::solver
