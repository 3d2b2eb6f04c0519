#include "solver/season/season_findings.h"

#include <algorithm>
#include <optional>

#include "solver/day/farm_of_day.h"
#include "solver/findings/states.h"
#include "solver/flow/driest_month.h"

namespace leat::solver {

namespace {

constexpr double least_drawn_m3 = 1e-6;

/// The month in which a tank is judged: the driest, if it lies in the season and every trough had
/// its need then (a trough that starves draws little); else the month that draws most.
double drawn_a_day_m3(const SeasonPast& past, const SeasonAnswer& answer, std::size_t tank) {
  const std::optional<model::Month> driest = driest_month(past.farm);
  double most = 0.0;
  for (std::size_t i = 0; i < past.account.months().size(); ++i) {
    const WaterAccount::MonthSum& month = past.account.months()[i];
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

bool ran_empty(const SeasonPast& past, std::size_t place, double lowest_m) {
  const StoreLaw& store = *past.stores.find(place);
  return lowest_m < lowest_mouth_m(past.farm, store).value_or(store.bottom_m) + empty_within_m;
}

}  // namespace

void find_season_findings(const SeasonPast& past, SeasonAnswer& answer) {
  find_season_reasons(past, answer);
  for (TankSeason& tank : answer.tanks) {
    tank.ran_empty = ran_empty(past, tank.place, tank.lowest_m);
    const StoreLaw& store = *past.stores.find(tank.place);
    const std::optional<double> mouth_m = lowest_mouth_m(past.farm, store);
    const double a_day_m3 = drawn_a_day_m3(past, answer, tank.place);
    if (mouth_m && a_day_m3 > least_drawn_m3) {
      const double holds_m3 = store.at(store.brim_m).volume_m3 - store.at(*mouth_m).volume_m3;
      tank.days_alone = holds_m3 / a_day_m3;
    }
  }
  for (PondSeason& pond : answer.ponds) {
    pond.ran_empty = ran_empty(past, pond.place, pond.lowest_m);
  }
  answer.flags = season_flags(past, answer);
  find_season_frost(past, answer);
}

}  // namespace leat::solver
