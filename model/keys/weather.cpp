#include "model/keys/weather.h"

#include <array>
#include <variant>

#include <fmt/format.h>

#include "model/keys/beside_file.h"
#include "model/keys/kinds.h"
#include "model/quantity/conversion.h"

namespace leat::model {
namespace {

constexpr Range<double> rain_days_range{0.0, 31.0, "from 0 to 31", true};
constexpr Range<double> pan_range{0.0, 1.5, "above 0 and at most 1.5", false};

/// Takes one column of a CSV file into the days; a file named by several keys is read once.
template <class Value>
bool take_column(const KeyValue& value,
                 std::string_view column,
                 std::optional<Value> WeatherDay::*member,
                 WeatherDraft& draft) {
  auto found = draft.tables.find(value.node.text);
  if (found == draft.tables.end()) {
    const auto file = read_beside(value.node, value.what, value.context);
    auto table = file ? read_weather_csv(file->text, file->name, value.problems())
                      : std::optional<WeatherTable>();
    found = draft.tables.emplace(value.node.text, std::move(table)).first;
  }
  if (!found->second) {
    return false;
  }
  if (found->second->columns.count(column) == 0) {
    value.problems().add(
        "csv-columns",
        value.node.position,
        fmt::format("{}: '{}' has no column '{}'", value.what, value.node.text, column),
        "name a file that has it, or take the key out");
    return false;
  }
  for (const WeatherDay& day : found->second->days) {
    WeatherDay& kept = draft.days[day.on];
    kept.on = day.on;
    kept.*member = day.*member;
  }
  return true;
}

/// A key of the weather: a column of a CSV file, which goes to the days, or a quantity by month,
/// which `read_months(const KeyValue&)` reads.
template <class InDay, class Series, class ReadMonths>
auto by_day_or_month(Kind kind,
                     std::string_view column,
                     std::optional<InDay> WeatherDay::*in_day,
                     std::optional<MonthSeries<Series>> Weather::*by_month,
                     ReadMonths read_months) {
  kind.by_month = true;
  kind.or_csv = true;
  return own(std::move(kind), [=](const KeyValue& value, WeatherDraft& draft) {
    if (names_csv(value.node)) {
      return take_column(value, column, in_day, draft);
    }
    draft.weather.*by_month = read_months(value);
    return (draft.weather.*by_month).has_value();
  });
}

/// A depth in the whole month, or a depth a day.
using Depth = std::variant<Length, DepthRate>;

DepthRate rate_in(const Depth& depth, Month month) {
  if (const auto* const sum = std::get_if<Length>(&depth)) {
    return DepthRate::from_si(in_metres(*sum) / (days_of_month(month) * seconds_per_day));
  }
  return std::get<DepthRate>(depth);
}

/// The most a day may bring by that depth: a month's sum in the shortest month.
Length most_a_day(const Depth& depth) {
  if (const auto* const sum = std::get_if<Length>(&depth)) {
    constexpr double shortest_month = 28.0;
    return *sum / shortest_month;
  }
  return metres(std::get<DepthRate>(depth).in_si() * seconds_per_day);
}

/// "40 mm" in the whole month, or "2 mm/day".
std::optional<Depth> read_depth(const YamlNode& node,
                                const std::string& what,
                                const Range<Length>& day_range,
                                ProblemList& problems) {
  std::optional<Depth> depth;
  if (node.kind == YamlNode::Kind::Text && node.text.ends_with("/day")) {
    set_if(depth, read_value(node, what, parse_depth_rate, problems));
  } else {
    set_if(depth, read_value(node, what, parse_depth, problems));
  }
  if (depth && !day_range.holds(most_a_day(*depth))) {
    problems.add("out-of-range",
                 node.position,
                 fmt::format("{}: '{}' is out of range", what, node.text),
                 fmt::format("it must be {}", day_range.told));
    return std::nullopt;
  }
  return depth;
}

/// Depths by month as rates; sums differ from month to month since months differ in length.
std::optional<MonthSeries<DepthRate>> read_depths(const KeyValue& value,
                                                  GapRule rule,
                                                  const Range<Length>& day_range) {
  const auto read_one = [&](const YamlNode& node, const std::string& what) {
    return read_depth(node, what, day_range, value.problems());
  };
  MonthSeries<DepthRate> series;
  if (value.node.kind == YamlNode::Kind::Map) {
    const auto given = read_given_months<Depth>(value.node, value.what, read_one, value.problems());
    if (!given) {
      return std::nullopt;
    }
    std::array<std::optional<DepthRate>, 12> rates{};
    for (std::size_t month = 0; month < rates.size(); ++month) {
      if ((*given)[month]) {
        rates[month] = rate_in(*(*given)[month], static_cast<Month>(month));
      }
    }
    series = fill_months(rates, rule);
    note_assumed_months(series.assumed, rule, value.what, value.context.notes);
    return series;
  }
  const auto depth = read_one(value.node, value.what);
  if (!depth) {
    return std::nullopt;
  }
  series.varies = std::holds_alternative<Length>(*depth);
  for (std::size_t month = 0; month < series.by_month.size(); ++month) {
    series.by_month[month] = rate_in(*depth, static_cast<Month>(month));
  }
  return series;
}

auto depths(std::string_view column,
            std::optional<Length> WeatherDay::*in_day,
            std::optional<MonthSeries<DepthRate>> Weather::*by_month,
            GapRule rule,
            const Range<Length>& day_range) {
  return by_day_or_month(
      Kind{"depth"}, column, in_day, by_month, [rule, day_range](const KeyValue& value) {
        return read_depths(value, rule, day_range);
      });
}

/// Warmth of the air by month.
auto temperatures(std::string_view column,
                  std::optional<Temperature> WeatherDay::*in_day,
                  std::optional<MonthSeries<Temperature>> Weather::*by_month) {
  return by_day_or_month(Kind{"temperature"}, column, in_day, by_month, [](const KeyValue& value) {
    const auto read_one = [&](const YamlNode& node, const std::string& what) {
      return read_within(node, what, parse_temperature, air_range, value.problems());
    };
    return read_months_with<Temperature>(
        value.node, value.what, read_one, GapRule::Straight, value.context);
  });
}

/// A quantity by month that is kept as a bare number of the unit its member tells. Between two
/// months the rule takes the value that dries a pond more, as for rain and evaporation.
template <class Written, class InUnit>
auto numbers(std::string_view definition,
             std::string_view column,
             std::optional<double> WeatherDay::*in_day,
             std::optional<MonthSeries<double>> Weather::*by_month,
             Parsed<Written> (*parse)(std::string_view),
             const Range<Written>& range,
             InUnit in_unit,
             GapRule rule) {
  const auto read = [=](const KeyValue& value) -> std::optional<MonthSeries<double>> {
    const auto read_one = [&](const YamlNode& node, const std::string& what) {
      return read_within(node, what, parse, range, value.problems());
    };
    const auto series =
        read_months_with<Written>(value.node, value.what, read_one, rule, value.context);
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
  };
  return by_day_or_month(Kind{definition}, column, in_day, by_month, read);
}

/// Kept until the end: the note on months without a count stands behind the other notes.
bool keep_rain_days(const KeyValue& value, WeatherDraft& draft) {
  draft.rain_days = &value.node;
  return true;
}

/// A count a month, which may be a mean over years: 7.5. More days for the same rain make less run
/// off.
void read_rain_days(const MapReader& map, WeatherDraft& draft, LoadContext& context) {
  if (draft.rain_days == nullptr) {
    return;
  }
  const auto read_one = [&](const YamlNode& node, const std::string& what) {
    return read_within(node, what, parse_number, rain_days_range, context.problems);
  };
  draft.weather.rain_days = read_months_with<double>(
      *draft.rain_days, map.part("rain days"), read_one, GapRule::Higher, context);
}

std::vector<Key<WeatherDraft>> water_balance_keys() {
  return {
      key<WeatherDraft>(
          "rain",
          depths("rain", &WeatherDay::rain, &Weather::rain, GapRule::Lower, day_rain_range),
          {.sentence =
               "Rain: a month's sum, or a depth a day. One value, by month, or a CSV file of days.",
           .examples = {"40 mm", "1.6 in"},
           .told = "sum of a month (`40 mm`; February counts 28 days) or a rate (`2 mm/day`), at "
                   "most 2 m a day",
           .if_absent = "none"}),
      key<WeatherDraft>("rain days",
                        own(Kind{.definition = "number", .by_month = true}, keep_rain_days),
                        {.sentence = "Days with rain in the month, a count.",
                         .examples = {"10"},
                         .told = "days with rain in the month, 0 to 31: a month's rain runs off in "
                                 "so many equal rains",
                         .if_absent = "nothing runs off"}),
      key<WeatherDraft>(
          "evaporation",
          depths("evaporation",
                 &WeatherDay::evaporation,
                 &Weather::pan_evaporation,
                 GapRule::Higher,
                 day_evaporation_range),
          {.sentence = "What a pan loses: a month's sum, or a depth a day. One value, by month, or "
                       "a CSV file of days.",
           .examples = {"4 mm/day", "120 mm"},
           .told = "what a pan loses, as sum of a month or rate, at most 100 mm a day",
           .if_absent = "reckoned, see below"}),
      key<WeatherDraft>(
          "pan coefficient",
          number(
              [](WeatherDraft & draft) -> auto& { return draft.weather.pan_coefficient; },
              pan_range),
          {.sentence = "Open water's evaporation over the pan's; 0.7 unless given, 1 where it is "
                       "open water's already.",
           .examples = {"0.7"},
           .told = "open water over pan, above 0 and at most 1.5; write 1 where yours is open "
                   "water's already",
           .if_absent = "0.7"})};
}

std::vector<Key<WeatherDraft>> air_keys() {
  return {
      key<WeatherDraft>(
          "tmin",
          temperatures("tmin", &WeatherDay::tmin, &Weather::tmin),
          {.sentence = "The day's lowest temperature of the air. One value, by month, or a CSV "
                       "file of days.",
           .examples = {"-4 C", "25 F"},
           .told = "the day's lowest and highest air temperature, -90 to 60 C, tmin not above tmax",
           .if_absent = "-"}),
      key<WeatherDraft>("tmax",
                        temperatures("tmax", &WeatherDay::tmax, &Weather::tmax),
                        {.sentence = "The day's highest temperature of the air. One value, by "
                                     "month, or a CSV file of days.",
                         .examples = {"24 C", "75 F"}}),
      key<WeatherDraft>(
          "wind",
          numbers("speed",
                  "wind",
                  &WeatherDay::wind_m_s,
                  &Weather::wind_m_s,
                  parse_speed,
                  wind_range,
                  in_metres_per_second,
                  GapRule::Higher),
          {.sentence = "Wind 2 m above the ground. One value, by month, or a CSV file of days.",
           .examples = {"2 m/s", "5 mph"},
           .told = "speed 2 m above the ground, at most 100 m/s",
           .if_absent = "2 m/s"}),
      key<WeatherDraft>(
          "humidity",
          numbers(
              "share",
              "humidity",
              &WeatherDay::humidity_percent,
              &Weather::humidity_percent,
              parse_share,
              humidity_range,
              [](double share) { return share * 100.0; },
              GapRule::Lower),
          {.sentence =
               "Mean relative humidity of the air. One value, by month, or a CSV file of days.",
           .examples = {"65 %"},
           .told = "the day's mean, 0 to 100 %",
           .if_absent = "from tmin"}),
      key<WeatherDraft>(
          "sunshine",
          numbers("duration",
                  "sunshine",
                  &WeatherDay::sunshine_h,
                  &Weather::sunshine_h,
                  parse_duration,
                  sunshine_range,
                  in_hours,
                  GapRule::Higher),
          {.sentence = "Bright sunshine a day. One value, by month, or a CSV file of days.",
           .examples = {"8 h"},
           .told = "bright hours a day, at most 24 h",
           .if_absent = "from tmin and tmax"})};
}

void check_warmth(const MapReader& map, const Weather& weather, ProblemList& problems) {
  if (!weather.tmin || !weather.tmax) {
    return;
  }
  std::optional<std::size_t> told;
  for (std::size_t month = 0; month < month_names.size(); ++month) {
    const bool assumed = weather.tmin->assumed[month] || weather.tmax->assumed[month];
    const bool crossed = weather.tmax->by_month[month] < weather.tmin->by_month[month];
    if (crossed && (!told || !assumed)) {
      told = month;  // rather a month that the file gives
    }
  }
  if (told) {
    problems.add("contradictory",
                 map.position_of("tmin"),
                 fmt::format("tmin of weather is above tmax in {}", month_names[*told]),
                 "tmin is the night's lowest, tmax the day's highest");
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

/// Days alone, all from one file.
Weather read_days(const YamlNode& node, LoadContext& context) {
  Weather weather;
  const auto file = read_beside(node, "weather", context);
  auto table = file ? read_weather_csv(file->text, file->name, context.problems)
                    : std::optional<WeatherTable>();
  if (table) {
    weather.days = std::move(table->days);
  }
  return weather;
}

}  // namespace

const Keys<WeatherDraft>& weather_keys() {
  static const Keys<WeatherDraft> keys({},
                                       joined<WeatherDraft>({water_balance_keys(), air_keys()}));
  return keys;
}

void read_weather(const YamlNode& node, SourcePosition key, Farm& farm, LoadContext& context) {
  if (names_csv(node)) {
    farm.weather = read_days(node, context);
    return;
  }
  const MapReader map(node, Subject{"weather", key}, weather_keys().names(), context.problems);
  WeatherDraft draft;
  weather_keys().read(map, draft, context);
  read_rain_days(map, draft, context);
  check_warmth(map, draft.weather, context.problems);
  for (auto& day : draft.days) {
    draft.weather.days.push_back(std::move(day.second));
  }
  if (draft.weather.tmin && draft.weather.tmax) {
    farm.air = mean_of(*draft.weather.tmin, *draft.weather.tmax);
  }
  farm.weather = std::move(draft.weather);
}

}  // namespace leat::model
