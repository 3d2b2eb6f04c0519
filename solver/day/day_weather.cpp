#include "solver/day/day_weather.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "model/quantity/conversion.h"
#include "solver/day/mid_months.h"
#include "solver/hydrology/evapotranspiration.h"
#include "solver/hydrology/humidity.h"
#include "solver/hydrology/pan.h"

namespace leat::solver {

namespace {

double number(double value) {
  return value;
}
template <class Quantity>
double number(Quantity value) {
  return value.in_si();
}

/// Depths a day [m] by month.
std::optional<std::array<double, 12>> depths_a_day(
    const std::optional<model::MonthSeries<DepthRate>>& rates) {
  auto depths = mid_months(rates);
  if (depths) {
    for (double& depth : *depths) {
      depth *= seconds_per_day;
    }
  }
  return depths;
}

/// Adds what a day measured, if it did.
template <class Value>
void add_day(DatedLine& line, const model::WeatherDay& day, const std::optional<Value>& value) {
  if (value) {
    line.add(model::day_number(day.on), number(*value));
  }
}

}  // namespace

/// A day as the columns are read.
struct FarmWeather::Moment {
  int day = 0;
  hydrology::MonthPair months;
  bool bridged = false;
};

std::optional<double> DayWeather::mean_C() const {
  if (!lowest_C || !highest_C) {
    return std::nullopt;
  }
  return 0.5 * (*lowest_C + *highest_C);
}

FarmWeather::FarmWeather(const model::Farm& farm)
    : latitude_degrees_(farm.site.latitude_degrees), altitude_m_(in_metres(farm.site.altitude)) {
  if (!farm.weather) {
    return;
  }
  const model::Weather& weather = *farm.weather;
  pan_coefficient_ = weather.pan_coefficient;
  rain_m_.months = depths_a_day(weather.rain);
  pan_m_.months = depths_a_day(weather.pan_evaporation);
  rain_days_ = mid_months(weather.rain_days);
  lowest_C_.months = mid_months(weather.tmin);
  highest_C_.months = mid_months(weather.tmax);
  wind_m_s_.months = mid_months(weather.wind_m_s);
  humidity_percent_.months = mid_months(weather.humidity_percent);
  sunshine_h_.months = mid_months(weather.sunshine_h);
  for (const model::WeatherDay& day : weather.days) {
    add_day(rain_m_.days, day, day.rain);
    add_day(pan_m_.days, day, day.evaporation);
    add_day(lowest_C_.days, day, day.tmin);
    add_day(highest_C_.days, day, day.tmax);
    add_day(wind_m_s_.days, day, day.wind_m_s);
    add_day(humidity_percent_.days, day, day.humidity_percent);
    add_day(sunshine_h_.days, day, day.sunshine_h);
  }
}

std::optional<double> FarmWeather::read(const Column& column, Moment& moment) {
  if (const auto measured = column.days.on(moment.day)) {
    return measured;
  }
  if (column.months) {
    return hydrology::between_months(*column.months, moment.months);
  }
  const auto bridge = column.days.at(moment.day, widest_bridge_days);
  moment.bridged = moment.bridged || bridge.has_value();
  return bridge;
}

void FarmWeather::set_rain(model::Date date, const Moment& moment, DayWeather& weather) const {
  if (const auto measured = rain_m_.days.on(moment.day)) {
    weather.rain_m = measured;
    weather.storm_m = measured;
    return;
  }
  if (!rain_m_.months) {
    return;
  }
  const auto month = static_cast<std::size_t>(date.month - 1);
  const int days = hydrology::days_in_month(date.year, date.month);
  // The months' rates were made for a February of 28 days: its sum stays the same in a leap year.
  const double sum_m =
      (*rain_m_.months)[month] * model::days_of_month(static_cast<model::Month>(date.month - 1));
  weather.rain_m = sum_m / days;
  if (!rain_days_) {
    return;
  }
  weather.storm_m = 0.0;
  weather.storm_by_months = true;
  const double asked = (*rain_days_)[month];
  if (!(asked > 0.0)) {
    return;  // a month without a day of rain: nothing runs off
  }
  const int rains = std::clamp(static_cast<int>(std::lround(asked)), 1, days);
  if (rains_on_day(date.day, days, rains)) {
    weather.storm_m = sum_m / rains;
  }
}

void FarmWeather::set_evaporation(model::Date date, Moment& moment, DayWeather& weather) const {
  std::optional<double> pan_m = pan_m_.days.on(moment.day);
  if (!pan_m && pan_m_.months) {
    pan_m = hydrology::between_months(*pan_m_.months, moment.months);
  }
  if (pan_m) {
    weather.evaporation_by = EvaporationMethod::Pan;
    weather.evaporation_m =
        hydrology::pond_evaporation_mm_per_day(*pan_m * mm_per_m, pan_coefficient_) / mm_per_m;
    return;
  }
  if (!latitude_degrees_ || !weather.lowest_C || !weather.highest_C) {
    return;
  }
  hydrology::WeatherAtPlace at;
  at.latitude_degrees = *latitude_degrees_;
  at.altitude_m = altitude_m_;
  at.day_of_year = hydrology::day_of_year(date.year, date.month, date.day);
  at.lowest_C = *weather.lowest_C;
  at.highest_C = *weather.highest_C;
  at.wind_2m_m_s = weather.wind_2m_m_s;
  at.sunshine_h = weather.sunshine_h;
  if (weather.humidity_percent) {
    at.vapour_pressure_kPa = hydrology::vapour_pressure_from_mean_humidity_kPa(
        at.lowest_C, at.highest_C, *weather.humidity_percent);
  }
  // FAO-56 fills any one of the three that is missing; with all three missing nothing is left of
  // its equation but the temperatures, which Hargreaves was fitted to.
  const bool more_than_warmth = at.wind_2m_m_s || at.sunshine_h || at.vapour_pressure_kPa;
  weather.evaporation_by =
      more_than_warmth ? EvaporationMethod::PenmanMonteith : EvaporationMethod::Hargreaves;
  const double reference_mm = more_than_warmth ? hydrology::penman_monteith(at).mm_per_day
                                               : hydrology::hargreaves_mm_per_day(at);
  weather.evaporation_m = hydrology::open_water_coefficient * reference_mm / mm_per_m;
}

DayWeather FarmWeather::on(model::Date date) const {
  DayWeather weather;
  Moment moment;
  moment.day = model::day_number(date);
  moment.months = noon_pair(date);
  weather.lowest_C = read(lowest_C_, moment);
  weather.lowest_by_months = lowest_C_.months && !lowest_C_.days.on(moment.day);
  weather.highest_C = read(highest_C_, moment);
  weather.wind_2m_m_s = read(wind_m_s_, moment);
  weather.humidity_percent = read(humidity_percent_, moment);
  weather.sunshine_h = read(sunshine_h_, moment);
  set_rain(date, moment, weather);
  set_evaporation(date, moment, weather);
  weather.bridged = moment.bridged;
  return weather;
}

}  // namespace leat::solver
