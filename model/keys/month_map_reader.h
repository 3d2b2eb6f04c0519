// Values that may change with the month: one value, or a map {Apr: ..., Aug: ...}.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "model/farm/month_series.h"
#include "model/keys/value_reader.h"

namespace leat::model {

/// The months given in a map, each read by `read_one(node, what)`; a misspelt month is reported
/// with the nearest (code unknown-month). Empty where nothing could be read.
template <class Value, class ReadOne>
[[nodiscard]] std::optional<std::array<std::optional<Value>, 12>> read_given_months(
    const YamlNode& node, std::string_view what, const ReadOne& read_one, ProblemList& problems) {
  std::array<std::optional<Value>, 12> given{};
  if (node.entries.empty()) {
    problems.add("empty-value",
                 node.position,
                 std::string(what) + " names no month",
                 "write one value, or {Apr: ..., Aug: ...}");
    return std::nullopt;
  }
  bool sound = true;
  for (const YamlEntry& entry : node.entries) {
    const std::optional<Month> month = month_named(entry.key);
    if (!month) {
      report_unknown_word("unknown-month",
                          entry.position,
                          std::string(what) + ": '" + entry.key + "' is not a month",
                          entry.key,
                          month_names,
                          problems);
      sound = false;
      continue;
    }
    const std::string month_what = std::string(what) + " in " + entry.key;
    const std::optional<Value> value = read_one(entry.value, month_what);
    given[static_cast<std::size_t>(*month)] = value;
    sound = sound && value.has_value();
  }
  return sound ? std::optional(given) : std::nullopt;
}

/// Says which months were not given and how they were filled; nothing where all were given.
void note_assumed_months(const std::array<bool, 12>& assumed,
                         GapRule rule,
                         std::string_view what,
                         std::vector<std::string>& notes);

/// One value or a month map, each read by `read_one(node, what)`.
template <class Value, class ReadOne>
[[nodiscard]] std::optional<MonthSeries<Value>> read_months_with(const YamlNode& node,
                                                                 std::string_view what,
                                                                 const ReadOne& read_one,
                                                                 GapRule rule,
                                                                 LoadContext& context) {
  if (node.kind != YamlNode::Kind::Map) {
    const std::optional<Value> value = read_one(node, std::string(what));
    return value ? std::optional(MonthSeries<Value>::constant(*value)) : std::nullopt;
  }
  const auto given = read_given_months<Value>(node, what, read_one, context.problems);
  if (!given) {
    return std::nullopt;
  }
  MonthSeries<Value> series = fill_months(*given, rule);
  note_assumed_months(series.assumed, rule, what, context.notes);
  return series;
}

/// The same with a quantity's parser.
template <class Value>
[[nodiscard]] std::optional<MonthSeries<Value>> read_months(
    const YamlNode& node,
    std::string_view what,
    Parsed<Value> (*parse)(std::string_view),
    GapRule rule,
    LoadContext& context) {
  const auto read_one = [&](const YamlNode& value, const std::string& value_what) {
    return read_value(value, value_what, parse, context.problems);
  };
  return read_months_with<Value>(node, what, read_one, rule, context);
}

}  // namespace leat::model
