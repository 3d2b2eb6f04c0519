// The sky over a farm on one day: what was measured that day, else what the months tell, and what
// open water loses by it.
#pragma once

#include <array>
#include <optional>

#include "model/farm/farm.h"
#include "solver/answer/season_note.h"
#include "solver/day/dated_line.h"
#include "solver/hydrology/calendar.h"

namespace leat::solver {

/// One day's weather; what neither a day nor a month tells of is absent.
struct DayWeather {
  std::optional<double> rain_m;   // on level ground; a month's rain falls evenly on its days
  std::optional<double> storm_m;  // the same rain as it falls: all of it on the days with rain.
                                  // Absent where nothing tells on how many days it fell.
  std::optional<double> lowest_C;
  std::optional<double> highest_C;
  std::optional<double> wind_2m_m_s;
  std::optional<double> humidity_percent;  // relative, mean of the day
  std::optional<double> sunshine_h;
  double evaporation_m = 0.0;  // depth of open water
  EvaporationMethod evaporation_by = EvaporationMethod::Nothing;
  bool lowest_by_months = false;  // `lowest_C` is the month's usual night: single nights stray
  bool storm_by_months = false;   // `storm_m` is laid out by the month's days with rain
  bool bridged = false;           // a gap of the daily file was bridged by a straight line

  [[nodiscard]] std::optional<double> mean_C() const;
};

/// Whether one of so many equal, evenly spaced rains falls on a day of a month. Exactly `rains` of
/// the days 1 to `days` do, 0 <= rains <= days.
[[nodiscard]] constexpr bool rains_on_day(int day, int days, int rains) {
  const auto fallen_by = [&](int until) { return (2 * until * rains + days) / (2 * days); };
  return fallen_by(day) > fallen_by(day - 1);
}

/// The weather of a farm, made ready to be read day by day. The farm is not needed afterwards.
class FarmWeather {
 public:
  /// Days missing from a daily file are bridged where the days around the gap are so close.
  static constexpr int widest_bridge_days = 14;

  explicit FarmWeather(const model::Farm& farm);

  /// A day's weather. Values measured that day come first, then month maps (rain: the month's sum
  /// spread over its days; else mid-month values joined around the year), then a short gap's
  /// straight line (never for rain).
  [[nodiscard]] DayWeather on(model::Date date) const;

 private:
  /// One column of the daily file beside its month map.
  struct Column {
    DatedLine days;
    std::optional<std::array<double, 12>> months;
  };
  struct Moment;

  [[nodiscard]] static std::optional<double> read(const Column& column, Moment& moment);
  void set_rain(model::Date date, const Moment& moment, DayWeather& weather) const;
  void set_evaporation(model::Date date, Moment& moment, DayWeather& weather) const;

  std::optional<double> latitude_degrees_;
  double altitude_m_ = 0.0;
  double pan_coefficient_ = 0.0;
  Column rain_m_;  // depth a day
  Column pan_m_;   // likewise
  std::optional<std::array<double, 12>> rain_days_;
  Column lowest_C_;
  Column highest_C_;
  Column wind_m_s_;
  Column humidity_percent_;
  Column sunshine_h_;
};

}  // namespace leat::solver
