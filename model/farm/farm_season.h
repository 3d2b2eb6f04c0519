// What a season needs besides the moment: dates, hours of the day, weather, the shape of ponds,
// what seeps and runs off, pumps and rams. Plain values; the units stand in the types or names.
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "model/farm/month_series.h"
#include "model/quantity/quantity.h"
#include "model/text/source_position.h"

namespace leat::model {

/// A day of the Gregorian calendar.
struct Date {
  int year = 1970;
  int month = 1;  // 1 to 12
  int day = 1;    // 1 to 31

  friend constexpr auto operator<=>(const Date&, const Date&) = default;
  friend constexpr bool operator==(const Date&, const Date&) = default;
};

/// Days since 1970-01-01, negative before it.
[[nodiscard]] int day_number(Date date);
/// The date of a day number: the inverse of `day_number`.
[[nodiscard]] Date date_of_day(int day_number);
/// A date in ISO 8601's extended form, "2026-08-14", years 1 to 9999; nothing for any other text
/// and for days that no calendar has.
[[nodiscard]] std::optional<Date> parse_date(std::string_view text);
/// "2026-08-14".
[[nodiscard]] std::string date_text(Date date);
/// The month a date lies in.
[[nodiscard]] constexpr Month month_of(Date date) {
  return static_cast<Month>(date.month - 1);
}
/// Days of a month; February has 28, since a value by month belongs to no one year.
[[nodiscard]] int days_of_month(Month month);

/// A value measured on a day.
template <class Value>
struct Dated {
  Date on;
  Value value;
};

/// Hours of the day, counted from midnight, 0 to 24 h. `to` before `from` runs past midnight.
struct ClockRange {
  Duration from;
  Duration to;
};

/// Area of a pond's surface when it stands at a level.
struct StageArea {
  Elevation level;
  Area area;
};

/// A pond dug with a rectangular top and even slopes.
struct PrismShape {
  Length top_length;
  Length top_width;
  double side_run = 0.0;  // 2 for sides of 2:1 (across : down); 0 is upright
  Length depth;           // from the top to the bottom
};

/// A round pond with even slopes.
struct ConeShape {
  Length diameter;  // at the top
  double side_run = 0.0;
  Length depth;
};

/// A table has at least two levels, which rise, and areas that never fall.
using PondShape = std::variant<std::monostate, std::vector<StageArea>, PrismShape, ConeShape>;

/// Land whose runoff reaches the pond.
struct Catchment {
  Area area;
  double curve_number = 0.0;  // above 0, at most 100
  SourcePosition position = {};
};

/// The soils whose seepage the season knows, as FAO's pond training series names them.
inline constexpr std::array<std::string_view, 6> soil_words = {
    "sand", "sandy loam", "loam", "clay loam", "loamy clay", "clay"};

/// Nothing said, a rate, or a word for the soil (`soil_words`).
using Seepage = std::variant<std::monostate, DepthRate, std::string>;

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

/// A float valve that stays open from a day on.
struct FloatBreak {
  std::size_t place = 0;  // index into Farm::places: a trough, or a tank with a float inlet
  Date on;
  SourcePosition position;
};

/// Lifts water from one place to another.
struct Pump {
  std::string name;
  std::size_t from = 0;  // index into Farm::places
  std::size_t to = 0;
  std::vector<std::pair<Flow, Length>> curve;  // two or more; the flows rise, the heads fall
  std::vector<ClockRange> runs;
  std::optional<Duration> hours_a_day;  // instead of hours of the clock
  std::optional<double> efficiency;
  SourcePosition position;
};

/// A hydraulic ram between the end of its drive pipe and the start of its delivery pipe. Its waste
/// valve beats at `level` (where absent, the level of the drive pipe's end); `takes` is the drive
/// flow it is set to (where absent, what the drive pipe brings).
struct Ram {
  std::string name;
  std::size_t drive = 0;  // index into Farm::pipes
  std::size_t delivery = 0;
  std::optional<Elevation> level;
  std::optional<Flow> takes;
  std::optional<double> efficiency;  // d'Aubuisson's
  SourcePosition position;
};

}  // namespace leat::model
