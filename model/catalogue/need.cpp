#include "model/catalogue/need.h"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

#include "model/catalogue/herd_catalogue.h"

namespace leat::model {
namespace {

/// The animal of a herd whose name the loader has checked.
const CatalogueAnimal& known_animal(const HerdEntry& entry) {
  const CatalogueAnimal* found = find_animal(entry.animal);
  if (found == nullptr) {
    throw std::logic_error(fmt::format("herd entry '{}' was not checked", entry.animal));
  }
  return *found;
}

/// The air to use in a month: none without a month where the air changes, since January's would be
/// no better than any other.
std::optional<Temperature> air_in(const std::optional<MonthSeries<Temperature>>& air,
                                  std::optional<Month> month) {
  if (!air || (air->varies && !month)) {
    return std::nullopt;
  }
  return air->at(month);
}

Volume herd_a_day(const HerdNeed& need,
                  std::optional<Temperature> air,
                  std::optional<Month> month) {
  Volume sum;
  for (const HerdEntry& entry : need.herd) {
    sum = sum + daily_water(known_animal(entry), air) * entry.heads.at(month).in_si();
  }
  return sum;
}

Flow over(Volume amount, Duration time) {
  return cubic_metres_per_second(in_cubic_metres(amount) / in_seconds(time));
}

}  // namespace

std::optional<Flow> need_rate(const Trough& trough,
                              const std::optional<MonthSeries<Temperature>>& air,
                              std::optional<Month> month) {
  if (const RateNeed* rate = std::get_if<RateNeed>(&trough.need)) {
    return rate->rate.at(month);
  }
  if (const DailyNeed* daily = std::get_if<DailyNeed>(&trough.need)) {
    return over(daily->per_day.at(month), trough.within);
  }
  if (const HerdNeed* herd = std::get_if<HerdNeed>(&trough.need)) {
    return over(herd_a_day(*herd, air_in(air, month), month), trough.within);
  }
  return std::nullopt;
}

bool need_varies(const Trough& trough, const std::optional<MonthSeries<Temperature>>& air) {
  if (const RateNeed* rate = std::get_if<RateNeed>(&trough.need)) {
    return rate->rate.varies;
  }
  if (const DailyNeed* daily = std::get_if<DailyNeed>(&trough.need)) {
    return daily->per_day.varies;
  }
  const HerdNeed* herd = std::get_if<HerdNeed>(&trough.need);
  if (herd == nullptr) {
    return false;
  }
  const bool air_varies = air && air->varies;
  return std::any_of(herd->herd.begin(), herd->herd.end(), [&](const HerdEntry& entry) {
    return entry.heads.varies || (air_varies && known_animal(entry).rows.size() > 1);
  });
}

}  // namespace leat::model
