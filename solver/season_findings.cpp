#include "solver/season_findings.h"

#include <algorithm>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "solver/day_values.h"
#include "solver/driest_month.h"
#include "solver/farm_of_day.h"
#include "solver/judgements.h"

namespace leat::solver {

namespace {

constexpr double least_drawn_m3 = 1e-6;

/// "works in the morning, dry by 15:00", from the hours of the worst month.
std::string day_pattern_of(const model::Farm& farm, const TroughSeason& trough) {
  const auto* data = std::get_if<model::Trough>(&farm.places[trough.place].data);
  if (data == nullptr || trough.met_by_hour.empty()) {
    return "";
  }
  std::size_t worst = 0;
  for (std::size_t i = 0; i < trough.months.size(); ++i) {
    if (trough.months[i].met.value_or(1.0) < trough.months[worst].met.value_or(1.0)) {
      worst = i;
    }
  }
  if (trough.months[worst].met.value_or(1.0) >= met_limit) {
    return "";
  }
  // An hour is without water where less than half of what is wanted in it comes.
  constexpr double half = 0.5;
  std::optional<std::size_t> first_wanted;
  std::optional<std::size_t> first_dry;
  bool recovers = false;
  for (std::size_t hour = 0; hour < 24; ++hour) {
    const double begin_s = 3600.0 * static_cast<double>(hour);
    if (drinking_share(*data, begin_s, begin_s + 3600.0) <= 0.0) {
      continue;
    }
    first_wanted = first_wanted.value_or(hour);
    const bool dry = trough.met_by_hour[worst][hour] < half;
    if (dry && !first_dry) {
      first_dry = hour;
    }
    recovers = recovers || (first_dry && !dry);
  }
  if (!first_dry || *first_dry == *first_wanted || recovers) {
    return "";
  }
  return fmt::format("in {} it works {}, dry by {}:00",
                     model::name_of(trough.months[worst].month),
                     *first_wanted < 12 ? "in the morning" : "at first",
                     *first_dry);
}

/// The month in which a tank is judged: the driest, if it lies in the season and every trough had
/// its need then (a trough that starves draws little); else the month that draws most.
double drawn_a_day_m3(const SeasonPast& past, const SeasonAnswer& answer, std::size_t tank) {
  const std::optional<model::Month> driest = driest_month(past.farm);
  double most = 0.0;
  for (std::size_t i = 0; i < past.books.months().size(); ++i) {
    const SeasonBooks::MonthSum& month = past.books.months()[i];
    const double a_day = month.days > 0.0 ? month.drawn_m3[tank] / month.days : 0.0;
    const bool all_met =
        std::all_of(answer.troughs.begin(), answer.troughs.end(), [&](const TroughSeason& trough) {
          return trough.months[i].met.value_or(1.0) >= met_limit;
        });
    if (driest && month.month == *driest && all_met) {
      return a_day;
    }
    most = std::max(most, a_day);
  }
  return most;
}

}  // namespace

void find_season_findings(const SeasonPast& past, SeasonAnswer& answer) {
  find_season_reasons(past, answer);
  for (TroughSeason& trough : answer.troughs) {
    trough.day_pattern = day_pattern_of(past.farm, trough);
  }
  for (TankSeason& tank : answer.tanks) {
    const StoreLaw& store = *past.stores.find(tank.place);
    const std::optional<double> mouth_m = lowest_mouth_m(past.farm, store);
    const double a_day_m3 = drawn_a_day_m3(past, answer, tank.place);
    if (mouth_m && a_day_m3 > least_drawn_m3) {
      const double holds_m3 = store.at(store.brim_m).volume_m3 - store.at(*mouth_m).volume_m3;
      tank.days_alone = holds_m3 / a_day_m3;
    }
  }
  answer.flags = season_flags(past, answer);
}

}  // namespace leat::solver
