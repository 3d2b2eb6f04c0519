// Weather by month and by day. The units stand in the types or names.
#pragma once

#include <optional>
#include <vector>

#include "model/farm/date.h"
#include "model/farm/month_series.h"
#include "model/quantity/quantity.h"

namespace leat::model {

/// Weather of one day; what was not measured is absent.
struct WeatherDay {
  Date on;
  std::optional<Length> rain;
  std::optional<Length> evaporation;  // of the pan
  std::optional<Temperature> tmin;
  std::optional<Temperature> tmax;
  std::optional<double> wind_m_s;
  std::optional<double> humidity_percent;  // relative, mean of the day
  std::optional<double> sunshine_h;        // hours of bright sunshine
};

/// Weather by month, by day, or both.
struct Weather {
  std::optional<MonthSeries<DepthRate>> rain;
  std::optional<MonthSeries<DepthRate>> pan_evaporation;
  std::optional<MonthSeries<double>> rain_days;  // days with rain in the month
  double pan_coefficient = 0.7;  // open water over Class A pan, NOAA atlas (reference J1)
  std::optional<MonthSeries<Temperature>> tmin;
  std::optional<MonthSeries<Temperature>> tmax;
  std::optional<MonthSeries<double>> wind_m_s;
  std::optional<MonthSeries<double>> humidity_percent;
  std::optional<MonthSeries<double>> sunshine_h;  // a day
  std::vector<WeatherDay> days;                   // in order, each date once; dates may be missing
};

}  // namespace leat::model
