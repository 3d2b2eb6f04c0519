#include "solver/size/store_season.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "solver/season/season.h"
#include "solver/size/day_below.h"

namespace leat::solver {

namespace {

constexpr double step_s = 3600.0;
constexpr double most_days = 40.0;     // of what is drunk below, in the ample store
constexpr double least_days = 1e-3;    // what so small a store carries needs none
constexpr double finest_ratio = 1.02;  // between a volume that carries and one that does not
constexpr int common_year = 2001;      // no leap day; months repeat from year to year

/// Measured days of one month, by year.
class MeasuredDays {
 public:
  explicit MeasuredDays(model::Month month) : month_(month) {}

  void take(const model::Date& on) {
    if (model::month_of(on) == month_) {
      ++by_year_[on.year];
    }
  }
  template <class Value>
  void take_all(const std::vector<model::Dated<Value>>& record) {
    for (const model::Dated<Value>& row : record) {
      take(row.on);
    }
  }
  /// The year with most of them, of several the last; none where nothing was measured.
  [[nodiscard]] std::optional<int> fullest_year() const {
    std::optional<int> year;
    int most = 0;
    for (const auto& [which, days] : by_year_) {
      if (days >= most) {
        most = days;
        year = which;
      }
    }
    return year;
  }

 private:
  model::Month month_;
  std::map<int, int> by_year_;
};

/// The year of which the farm knows most days of the month.
int year_for(const model::Farm& farm, model::Month month) {
  MeasuredDays days(month);
  days.take_all(farm.site.water_record);
  for (const model::Place& place : farm.places) {
    model::for_each_record(place, [&days](const auto& record) { days.take_all(record); });
  }
  if (farm.weather) {
    for (const model::WeatherDay& day : farm.weather->days) {
      days.take(day.on);
    }
  }
  return days.fullest_year().value_or(common_year);
}

void set_volume(model::Place& place, double volume_m3) {
  std::visit(
      Overload{
          [&](model::Trough& trough) { trough.holds = cubic_metres(volume_m3); },
          [&](model::Tank& tank) {
            tank.area = square_metres(volume_m3 / in_metres(tank.full));
            tank.depth = tank.full;
          },
          [](const model::
                 AnyOf<model::Spring, model::Creek, model::Pond, model::Outlet, model::Tee> auto&) {
          }},
      place.data);
}

void shut(model::Pipe& pipe) {
  if (!pipe.valve) {
    pipe.valve.emplace();
  }
  pipe.valve->shut = true;
}

/// A trough's own line is shut. For a tank every spring and creek fails: a tank may stand beside
/// the line and its troughs be fed past it.
void cut_off(model::Farm& farm, std::size_t place) {
  const bool is_trough = model::is_trough(farm.places[place]);
  for (model::Pipe& pipe : farm.pipes) {
    if (is_trough ? pipe.to == place : model::is_source(farm.places[pipe.from])) {
      shut(pipe);
    }
  }
  std::erase_if(farm.pumps, [&](const model::Pump& pump) {
    return pump.to == place || model::is_source(farm.places[pump.from]);
  });
}

bool carries(const std::vector<bool>& supplied, const std::vector<bool>& wanted) {
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (wanted[i] && !supplied[i]) {
      return false;
    }
  }
  return true;
}

}  // namespace

StoreSeason::StoreSeason(const model::Farm& farm, model::Month month) : farm_(farm) {
  const int year = year_for(farm, month);
  const int number = static_cast<int>(month) + 1;
  first_ = {year, number, 1};
  last_ = {year, number, model::days_of_month(month)};
}

std::optional<double> StoreSeason::for_the_month_m3(std::size_t place) const {
  return least_m3(place, {first_, last_, false});
}

std::optional<double> StoreSeason::without_inflow_m3(std::size_t place, int days) const {
  const model::Date to = model::date_of_day(model::day_number(first_) + days - 1);
  const model::Date from = model::date_of_day(model::day_number(last_) - days + 1);
  const std::optional<double> early = least_m3(place, {first_, to, true});
  const std::optional<double> late = least_m3(place, {from, last_, true});
  return early && late ? std::optional(std::max(*early, *late)) : early ? early : late;
}

std::optional<double> StoreSeason::least_m3(std::size_t place, const Stretch& stretch) const {
  const double day_m3 = day_below_m3(farm_, place, model::month_of(first_));
  double carrying_m3 = most_days * day_m3;
  const std::vector<bool> by_ample = supplied(place, stretch, carrying_m3);
  std::vector<bool> wanted(farm_.places.size());
  for (const std::size_t below : places_below(farm_, place)) {
    wanted[below] = by_ample[below];
  }
  if (std::find(wanted.begin(), wanted.end(), true) == wanted.end()) {
    return std::nullopt;
  }
  double failing_m3 = least_days * day_m3;
  if (carries(supplied(place, stretch, failing_m3), wanted)) {
    return 0.0;
  }
  while (carrying_m3 > finest_ratio * failing_m3) {
    const double between_m3 = std::sqrt(carrying_m3 * failing_m3);
    const bool is_enough = carries(supplied(place, stretch, between_m3), wanted);
    (is_enough ? carrying_m3 : failing_m3) = between_m3;
  }
  return carrying_m3;
}

std::vector<bool> StoreSeason::supplied(std::size_t place,
                                        const Stretch& stretch,
                                        double volume_m3) const {
  model::Farm farm = farm_;
  farm.breaks.clear();
  set_volume(farm.places[place], volume_m3);
  if (stretch.is_cut) {
    cut_off(farm, place);
  }
  SeasonOptions options;
  options.from = stretch.from;
  options.to = stretch.to;
  options.step_s = step_s;
  std::vector<bool> found(farm.places.size());
  const SeasonAnswer answer = run_season(farm, options);
  for (const TroughSeason& trough : answer.troughs) {
    found[trough.place] = answer.converged && !trough.first_dry;
  }
  return found;
}

}  // namespace leat::solver
