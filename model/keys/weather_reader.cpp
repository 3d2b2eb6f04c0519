#include "model/keys/weather_reader.h"

#include <array>
#include <map>

#include <fmt/format.h>

#include "model/keys/beside_file.h"
#include "model/keys/month_map_reader.h"
#include "model/keys/weather_csv.h"
#include "model/quantity/conversion.h"

namespace leat::model {
namespace {

/// One key of the weather: a quantity by month, or a column of a CSV file.
class WeatherReader {
 public:
  WeatherReader(const MapReader& map, Weather& weather, LoadContext& context)
      : map_(map), weather_(weather), context_(context) {}

  void read();

 private:
  template <class Value>
  [[nodiscard]] auto within(Parsed<Value> (*parse)(std::string_view), const Range<Value>& range) {
    return [this, parse, &range](const YamlNode& node, const std::string& what) {
      return read_within(node, what, parse, range, context_.problems);
    };
  }

  /// Takes one column of a CSV file into the days; a file named by several keys is read once.
  template <class Value>
  void take_column(const YamlNode& node,
                   std::string_view key,
                   std::optional<Value> WeatherDay::*member) {
    auto found = tables_.find(node.text);
    if (found == tables_.end()) {
      const auto file = read_beside(node, map_.part(key), context_);
      auto table = file ? read_weather_csv(file->text, file->name, context_.problems)
                        : std::optional<WeatherTable>();
      found = tables_.emplace(node.text, std::move(table)).first;
    }
    if (!found->second) {
      return;
    }
    if (found->second->columns.count(key) == 0) {
      context_.problems.add(
          "csv-columns",
          node.position,
          fmt::format("{}: '{}' has no column '{}'", map_.part(key), node.text, key),
          "name a file that has it, or take the key out");
      return;
    }
    for (const WeatherDay& day : found->second->days) {
      WeatherDay& kept = days_[day.on];
      kept.on = day.on;
      kept.*member = day.*member;
    }
  }

  /// The value of a key to be read by month; nullptr where it is absent, or was a CSV file, whose
  /// column then has gone to the days.
  template <class Value>
  const YamlNode* by_month(std::string_view key, std::optional<Value> WeatherDay::*member) {
    const YamlNode* const node = map_.find(key);
    if (node != nullptr && names_csv(*node)) {
      take_column(*node, key, member);
      return nullptr;
    }
    return node;
  }

  /// Depths by month: "40 mm" in the whole month, or "2 mm/day".
  std::optional<MonthSeries<DepthRate>> depths(std::string_view key,
                                               GapRule rule,
                                               const Range<Length>& day_range,
                                               std::optional<Length> WeatherDay::*member) {
    const YamlNode* const node = by_month(key, member);
    if (node == nullptr) {
      return std::nullopt;
    }
    const std::string what = map_.part(key);
    if (node->kind == YamlNode::Kind::Map) {
      const auto read_one = [&](const YamlNode& value, const std::string& value_what) {
        return read_depth(value, value_what, day_range);
      };
      const auto given = read_given_months<Depth>(*node, what, read_one, context_.problems);
      if (!given) {
        return std::nullopt;
      }
      std::array<std::optional<DepthRate>, 12> rates{};
      for (std::size_t month = 0; month < rates.size(); ++month) {
        if ((*given)[month]) {
          rates[month] = rate_in(*(*given)[month], static_cast<Month>(month));
        }
      }
      const MonthSeries<DepthRate> series = fill_months(rates, rule);
      note_assumed_months(series.assumed, rule, what, context_.notes);
      return series;
    }
    const auto depth = read_depth(*node, what, day_range);
    if (!depth) {
      return std::nullopt;
    }
    MonthSeries<DepthRate> series;
    series.varies = depth->month_sum;  // months differ in length
    for (std::size_t month = 0; month < series.by_month.size(); ++month) {
      series.by_month[month] = rate_in(*depth, static_cast<Month>(month));
    }
    return series;
  }

  struct Depth {
    double metres = 0.0;  // a month or a day
    bool month_sum = false;
  };

  static DepthRate rate_in(const Depth& depth, Month month) {
    const double days = depth.month_sum ? days_of_month(month) : 1.0;
    return DepthRate::from_si(depth.metres / (days * seconds_per_day));
  }

  std::optional<Depth> read_depth(const YamlNode& node,
                                  const std::string& what,
                                  const Range<Length>& day_range) {
    const bool rate = node.kind == YamlNode::Kind::Text && node.text.ends_with("/day");
    Depth depth;
    depth.month_sum = !rate;
    if (rate) {
      const auto value = read_value(node, what, parse_depth_rate, context_.problems);
      if (!value) {
        return std::nullopt;
      }
      depth.metres = value->in_si() * seconds_per_day;
    } else {
      const auto value = read_value(node, what, parse_depth, context_.problems);
      if (!value) {
        return std::nullopt;
      }
      depth.metres = in_metres(*value);
    }
    constexpr double shortest_month = 28.0;
    const double a_day = depth.month_sum ? depth.metres / shortest_month : depth.metres;
    if (!day_range.holds(metres(a_day))) {
      context_.problems.add("out-of-range",
                            node.position,
                            fmt::format("{}: '{}' is out of range", what, node.text),
                            fmt::format("it must be {}", day_range.told));
      return std::nullopt;
    }
    return depth;
  }

  std::optional<MonthSeries<Temperature>> temperatures(
      std::string_view key, std::optional<Temperature> WeatherDay::*member) {
    const YamlNode* const node = by_month(key, member);
    if (node == nullptr) {
      return std::nullopt;
    }
    return read_months_with<Temperature>(
        *node, map_.part(key), within(parse_temperature, air_range), GapRule::Straight, context_);
  }

  /// A quantity kept as a bare number of the unit its name tells.
  template <class Value, class ReadOne, class InUnit>
  std::optional<MonthSeries<double>> numbers(std::string_view key,
                                             GapRule rule,
                                             const ReadOne& read_one,
                                             const InUnit& in_unit,
                                             std::optional<double> WeatherDay::*member) {
    const YamlNode* const node = by_month(key, member);
    if (node == nullptr) {
      return std::nullopt;
    }
    const auto series = read_months_with<Value>(*node, map_.part(key), read_one, rule, context_);
    if (!series) {
      return std::nullopt;
    }
    MonthSeries<double> in_numbers;
    in_numbers.assumed = series->assumed;
    in_numbers.varies = series->varies;
    for (std::size_t month = 0; month < in_numbers.by_month.size(); ++month) {
      in_numbers.by_month[month] = in_unit(series->by_month[month]);
    }
    return in_numbers;
  }

  /// A count a month, which may be a mean over years: 7.5.
  void read_rain_days() {
    const YamlNode* const node = map_.find("rain days");
    if (node == nullptr) {
      return;
    }
    const Range<double> range{0.0, 31.0, "from 0 to 31", true};
    // More days for the same rain make less run off.
    weather_.rain_days = read_months_with<double>(
        *node, map_.part("rain days"), within(parse_number, range), GapRule::Higher, context_);
  }

  void check_warmth() {
    if (!weather_.tmin || !weather_.tmax) {
      return;
    }
    std::optional<std::size_t> told;
    for (std::size_t month = 0; month < month_names.size(); ++month) {
      const bool assumed = weather_.tmin->assumed[month] || weather_.tmax->assumed[month];
      const bool crossed = weather_.tmax->by_month[month] < weather_.tmin->by_month[month];
      if (crossed && (!told || !assumed)) {
        told = month;  // rather a month that the file gives
      }
    }
    if (told) {
      context_.problems.add("contradictory",
                            map_.position_of("tmin"),
                            fmt::format("tmin of weather is above tmax in {}", month_names[*told]),
                            "tmin is the night's lowest, tmax the day's highest");
    }
  }

  const MapReader& map_;
  Weather& weather_;
  LoadContext& context_;
  std::map<std::string, std::optional<WeatherTable>> tables_;
  std::map<Date, WeatherDay> days_;
};

void WeatherReader::read() {
  weather_.rain = depths("rain", GapRule::Lower, day_rain_range, &WeatherDay::rain);
  weather_.pan_evaporation =
      depths("evaporation", GapRule::Higher, day_evaporation_range, &WeatherDay::evaporation);
  weather_.tmin = temperatures("tmin", &WeatherDay::tmin);
  weather_.tmax = temperatures("tmax", &WeatherDay::tmax);
  // Between two months the value that dries a pond more, as for rain and evaporation.
  weather_.wind_m_s = numbers<Velocity>("wind",
                                        GapRule::Higher,
                                        within(parse_speed, wind_range),
                                        in_metres_per_second,
                                        &WeatherDay::wind_m_s);
  weather_.humidity_percent = numbers<double>(
      "humidity",
      GapRule::Lower,
      [this](const YamlNode& node, const std::string& what) {
        return read_value(node, what, parse_share, context_.problems);
      },
      [](double share) { return share * 100.0; },
      &WeatherDay::humidity_percent);
  weather_.sunshine_h = numbers<Duration>("sunshine",
                                          GapRule::Higher,
                                          within(parse_duration, sunshine_range),
                                          in_hours,
                                          &WeatherDay::sunshine_h);
  read_rain_days();
  if (const YamlNode* const value = map_.find("pan coefficient")) {
    const Range<double> range{0.0, 1.5, "above 0 and at most 1.5", false};
    set_if(
        weather_.pan_coefficient,
        read_within(*value, map_.part("pan coefficient"), parse_number, range, context_.problems));
  }
  check_warmth();
  for (auto& day : days_) {
    weather_.days.push_back(std::move(day.second));
  }
}

/// Mean air temperature by month.
MonthSeries<Temperature> mean_of(const MonthSeries<Temperature>& low,
                                 const MonthSeries<Temperature>& high) {
  MonthSeries<Temperature> air;
  air.varies = low.varies || high.varies;
  for (std::size_t month = 0; month < air.by_month.size(); ++month) {
    air.by_month[month] =
        celsius((in_celsius(low.by_month[month]) + in_celsius(high.by_month[month])) / 2.0);
    air.assumed[month] = low.assumed[month] || high.assumed[month];
  }
  return air;
}

}  // namespace

void read_weather(const YamlNode& node, SourcePosition key, Farm& farm, LoadContext& context) {
  static constexpr std::array<std::string_view, 9> keys = {"rain",
                                                           "rain days",
                                                           "evaporation",
                                                           "pan coefficient",
                                                           "tmin",
                                                           "tmax",
                                                           "wind",
                                                           "humidity",
                                                           "sunshine"};
  Weather weather;
  if (names_csv(node)) {
    const auto file = read_beside(node, "weather", context);
    auto table = file ? read_weather_csv(file->text, file->name, context.problems)
                      : std::optional<WeatherTable>();
    if (table) {
      weather.days = std::move(table->days);
    }
    farm.weather = std::move(weather);
    return;
  }
  const MapReader map(node, Subject{"weather", key}, keys, context.problems);
  WeatherReader(map, weather, context).read();
  if (weather.tmin && weather.tmax) {
    farm.air = mean_of(*weather.tmin, *weather.tmax);
  }
  farm.weather = std::move(weather);
}

}  // namespace leat::model
