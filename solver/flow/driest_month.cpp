#include "solver/flow/driest_month.h"

#include "model/catalogue/need.h"

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
    if (const auto* spring = std::get_if<model::Spring>(&place.data)) {
      supply.flow_m3_s += in_cubic_metres_per_second(spring->yield.at(month));
      supply.varies = supply.varies || spring->yield.varies;
    }
    const auto* creek = std::get_if<model::Creek>(&place.data);
    if (creek != nullptr && creek->flow) {
      supply.flow_m3_s += in_cubic_metres_per_second(creek->flow->at(month));
      supply.varies = supply.varies || creek->flow->varies;
    }
  }
  return supply;
}

Supply need_in(const model::Farm& farm, model::Month month) {
  Supply need;
  for (const model::Place& place : farm.places) {
    if (const auto* trough = std::get_if<model::Trough>(&place.data)) {
      const std::optional<Flow> rate = model::need_rate(*trough, farm.air, month);
      need.flow_m3_s += in_cubic_metres_per_second(rate.value_or(Flow{}));
      need.varies = need.varies || model::need_varies(*trough, farm.air);
    }
    const auto* outlet = std::get_if<model::Outlet>(&place.data);
    if (outlet != nullptr && outlet->wished) {
      need.flow_m3_s += in_cubic_metres_per_second(outlet->wished->at(month));
      need.varies = need.varies || outlet->wished->varies;
    }
  }
  return need;
}

bool surface_varies(const model::Place& place) {
  if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
    return creek->surface.varies || (creek->spare && creek->spare->varies);
  }
  const auto* pond = std::get_if<model::Pond>(&place.data);
  return pond != nullptr && pond->surface.varies;
}

}  // namespace

bool depends_on_month(const model::Farm& farm) {
  if (farm.site.water.varies || supply_in(farm, model::Month::Jan).varies ||
      need_in(farm, model::Month::Jan).varies) {
    return true;
  }
  for (const model::Place& place : farm.places) {
    if (surface_varies(place)) {
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
