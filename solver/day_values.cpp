// A simple stand-in: months joined straight, no records, pan evaporation only.
#include "solver/day_values.h"

#include <algorithm>
#include <array>

#include "model/herd_catalogue.h"
#include "solver/hydrology/calendar.h"
#include "solver/hydrology/seepage.h"

namespace leat::solver {

namespace {

template <class Value>
double on_day(const model::MonthSeries<Value>& series, model::Date date) {
  std::array<double, 12> months{};
  for (std::size_t i = 0; i < months.size(); ++i) {
    if constexpr (std::is_arithmetic_v<Value>) {
      months[i] = series.by_month[i];
    } else {
      months[i] = series.by_month[i].in_si();
    }
  }
  const double days = hydrology::day_of_year(date.year, date.month, date.day) - 0.5;
  return hydrology::monthly_at(months, date.year, days);
}

PondDay pond_day(const model::Farm& farm, const model::Pond& pond, model::Date date) {
  PondDay day;
  if (farm.weather && farm.weather->rain) {
    day.rain_m = on_day(*farm.weather->rain, date) * 86400.0;
  }
  if (farm.weather && farm.weather->pan_evaporation) {
    day.evaporation_m =
        on_day(*farm.weather->pan_evaporation, date) * 86400.0 * farm.weather->pan_coefficient;
  }
  if (const auto* rate = std::get_if<DepthRate>(&pond.seepage)) {
    day.seepage_m = rate->in_si() * 86400.0;
  } else if (const auto* soil = std::get_if<std::string>(&pond.seepage)) {
    const auto row = hydrology::seepage_of_soil(*soil);
    day.seepage_m = row ? hydrology::middle_mm_per_day(*row) * 1e-3 : 0.0;
  }
  for (const model::HerdEntry& entry : pond.stock.herd) {
    const auto* animal = model::find_animal(entry.animal);
    day.stock_m3 +=
        in_cubic_metres(model::daily_water(*animal, std::nullopt)) * on_day(entry.heads, date);
  }
  return day;
}

}  // namespace

DayValues day_values(const model::Farm& farm, model::Date date) {
  DayValues values;
  values.water_C = on_day(farm.site.water, date);
  for (const model::Place& place : farm.places) {
    PlaceDay day;
    if (const auto* spring = std::get_if<model::Spring>(&place.data)) {
      day.yield_m3_s = on_day(spring->yield, date);
    } else if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
      day.surface_m = on_day(creek->surface, date);
    } else if (const auto* pond = std::get_if<model::Pond>(&place.data)) {
      if (pond->shape.index() == 0) {
        day.surface_m = on_day(pond->surface, date);
      } else {
        day.pond = pond_day(farm, *pond, date);
      }
    } else if (const auto* trough = std::get_if<model::Trough>(&place.data)) {
      if (const auto* rate = std::get_if<model::RateNeed>(&trough->need)) {
        day.need_m3 = on_day(rate->rate, date) * 3600.0 * drinking_hours(*trough);
      } else if (const auto* daily = std::get_if<model::DailyNeed>(&trough->need)) {
        day.need_m3 = on_day(daily->per_day, date);
      } else if (const auto* herd = std::get_if<model::HerdNeed>(&trough->need)) {
        double sum = 0.0;
        for (const model::HerdEntry& entry : herd->herd) {
          const auto* animal = model::find_animal(entry.animal);
          std::optional<Temperature> air;
          if (farm.air) {
            air = Temperature::from_si(on_day(*farm.air, date));
          }
          sum += in_cubic_metres(model::daily_water(*animal, air)) * on_day(entry.heads, date);
        }
        day.need_m3 = sum;
      }
    } else if (const auto* outlet = std::get_if<model::Outlet>(&place.data)) {
      if (outlet->wished) {
        day.wished_m3_s = on_day(*outlet->wished, date);
      }
    }
    values.places.push_back(day);
  }
  return values;
}

std::vector<std::string> day_value_notes(const model::Farm&, model::Date, model::Date) {
  return {};
}

double drinking_hours(const model::Trough& trough) {
  if (trough.drinks.empty()) {
    return in_hours(trough.within);
  }
  double hours = 0.0;
  for (const model::ClockRange& range : trough.drinks) {
    const double span = in_hours(range.to) - in_hours(range.from);
    hours += span <= 0.0 ? span + 24.0 : span;
  }
  return std::clamp(hours, 1e-3, 24.0);
}

double drinking_share(const model::Trough& trough, double from_s, double to_s) {
  const auto overlap = [&](double begin_s, double end_s) {
    return std::max(0.0, std::min(to_s, end_s) - std::max(from_s, begin_s));
  };
  double inside_s = 0.0;
  double all_s = 0.0;
  if (trough.drinks.empty()) {
    all_s = in_seconds(trough.within);
    inside_s = overlap(43200.0 - 0.5 * all_s, 43200.0 + 0.5 * all_s);
  }
  for (const model::ClockRange& range : trough.drinks) {
    const double begin_s = in_seconds(range.from);
    const double end_s = in_seconds(range.to);
    if (begin_s < end_s) {
      inside_s += overlap(begin_s, end_s);
      all_s += end_s - begin_s;
    } else {
      inside_s += overlap(begin_s, 86400.0) + overlap(0.0, end_s);
      all_s += 86400.0 - begin_s + end_s;
    }
  }
  return all_s > 0.0 ? inside_s / all_s : 0.0;
}

}  // namespace leat::solver
