#include "model/weather_reader.h"

#include <array>

#include "model/month_map_reader.h"
#include "model/season_keys.h"

namespace leat::model {
namespace {

/// Free text or number by month: units of wind and sunshine are the season's to settle.
void check_free_months(const YamlNode& node, const std::string& what, ProblemList& problems) {
  if (node.kind != YamlNode::Kind::Map) {
    check_free_text(node, what, problems);
    return;
  }
  const auto read_one = [&](const YamlNode& value,
                            const std::string& value_what) -> std::optional<bool> {
    return read_text(value, value_what, problems) != nullptr ? std::optional(true) : std::nullopt;
  };
  (void)read_given_months<bool>(node, what, read_one, problems);
}

/// Depths by month: "40 mm" in the month, or "2 mm/day".
void check_depths(const YamlNode& node, const std::string& what, ProblemList& problems) {
  const auto read_one = [&](const YamlNode& value,
                            const std::string& value_what) -> std::optional<bool> {
    const bool rate = value.kind == YamlNode::Kind::Text && value.text.ends_with("/day");
    const bool sound = rate ? read_value(value, value_what, parse_depth_rate, problems).has_value()
                            : read_value(value, value_what, parse_length, problems).has_value();
    return sound ? std::optional(true) : std::nullopt;
  };
  if (node.kind == YamlNode::Kind::Map) {
    (void)read_given_months<bool>(node, what, read_one, problems);
  } else if (!(node.kind == YamlNode::Kind::Text && node.text.ends_with(".csv"))) {
    (void)read_one(node, what);
  }
}

std::optional<MonthSeries<Temperature>> read_temperatures(const MapReader& weather,
                                                          std::string_view key,
                                                          Reading& reading) {
  const YamlNode* const node = weather.find(key);
  if (node == nullptr || (node->kind == YamlNode::Kind::Text && node->text.ends_with(".csv"))) {
    return std::nullopt;
  }
  return read_months(*node, weather.part(key), parse_temperature, GapRule::Straight, reading);
}

}  // namespace

void read_weather(const YamlNode& node, SourcePosition key, Farm& farm, Reading& reading) {
  static constexpr std::array<std::string_view, 9> keys = {"rain",
                                                           "rain days",
                                                           "evaporation",
                                                           "pan coefficient",
                                                           "tmin",
                                                           "tmax",
                                                           "wind",
                                                           "humidity",
                                                           "sunshine"};
  ProblemList& problems = reading.problems;
  if (node.kind == YamlNode::Kind::Text && node.text.ends_with(".csv")) {
    return;  // a day-by-day record, which only the season reads
  }
  const MapReader weather(node, Subject{"weather", key}, keys, problems);
  for (const std::string_view name : {"rain", "evaporation"}) {
    if (const YamlNode* const value = weather.find(name)) {
      check_depths(*value, weather.part(name), problems);
    }
  }
  for (const std::string_view name : {"rain days", "wind", "humidity", "sunshine"}) {
    if (const YamlNode* const value = weather.find(name)) {
      check_free_months(*value, weather.part(name), problems);
    }
  }
  if (const YamlNode* const value = weather.find("pan coefficient")) {
    const Range<double> range{0.0, 1.5, "above 0 and at most 1.5", false};
    (void)read_within(*value, weather.part("pan coefficient"), parse_number, range, problems);
  }
  const auto low = read_temperatures(weather, "tmin", reading);
  const auto high = read_temperatures(weather, "tmax", reading);
  if (!low || !high) {
    return;
  }
  MonthSeries<Temperature> air;
  air.varies = low->varies || high->varies;
  for (std::size_t month = 0; month < air.by_month.size(); ++month) {
    air.by_month[month] =
        celsius((in_celsius(low->by_month[month]) + in_celsius(high->by_month[month])) / 2.0);
    air.assumed[month] = low->assumed[month] || high->assumed[month];
  }
  farm.air = air;
}

}  // namespace leat::model
