// Weather day by day from a CSV file, and the values weather may have.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "model/farm/weather.h"
#include "model/keys/value_reader.h"

namespace leat::model {

// Sane weather; wider than any record.
inline constexpr Range<Length> day_rain_range{Length(), metres(2.0), "at most 2 m a day", true};
inline constexpr Range<Length> day_evaporation_range{
    Length(), metres(0.1), "at most 100 mm a day", true};
inline constexpr Range<Temperature> air_range{
    celsius(-90.0), celsius(60.0), "from -90 C to 60 C", true};
inline constexpr Range<Velocity> wind_range{
    Velocity(), metres_per_second(100.0), "at most 100 m/s", true};
inline constexpr Range<double> humidity_range{0.0, 1.0, "from 0 % to 100 %", true};
inline constexpr Range<Duration> sunshine_range{
    Duration(), hours(24.0), "at most 24 h a day", true};

/// A depth of rain or evaporation: a length whose hints show units rain is measured in.
[[nodiscard]] Parsed<Length> parse_depth(std::string_view text);

/// The days of such a file, and which columns it has ("rain", "tmin" ...).
struct WeatherTable {
  std::vector<WeatherDay> days;
  std::set<std::string_view> columns;
};

/// Reads the text of such a file. Its header names the columns, in any order, with the units of the
/// bare numbers below ("date, rain mm, tmin C"); an empty cell was not measured. Dates rise.
/// Problems name `csv_file` and its line.
[[nodiscard]] std::optional<WeatherTable> read_weather_csv(std::string_view text,
                                                           const std::string& csv_file,
                                                           ProblemList& problems);

}  // namespace leat::model
