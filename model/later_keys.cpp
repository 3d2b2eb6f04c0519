#include "model/later_keys.h"

#include <array>

#include <fmt/format.h>

#include "model/season_keys.h"
#include "model/value_reader.h"

namespace leat::model {
namespace {

constexpr Range<double> efficiency_range{0.0, 1.0, "above 0 and at most 1", false};

std::optional<std::size_t> read_name(const MapReader& map,
                                     std::string_view key,
                                     NameRegistry::Kind kind,
                                     const NameRegistry& names,
                                     ProblemList& problems) {
  const YamlNode* const value = map.require(key, "NAME");
  const std::string* const name =
      value == nullptr ? nullptr : read_text(*value, map.part(key), problems);
  return name == nullptr ? std::nullopt
                         : names.look_up(kind, *name, value->position, map.part(key), problems);
}

void check_efficiency(const MapReader& map, ProblemList& problems) {
  if (const YamlNode* const value = map.find("efficiency")) {
    const auto share = read_value(*value, map.part("efficiency"), parse_share, problems);
    if (share && !efficiency_range.holds(*share)) {
      problems.add("out-of-range",
                   value->position,
                   fmt::format("{}: '{}' is out of range", map.part("efficiency"), value->text),
                   fmt::format("it must be {}", efficiency_range.told));
    }
  }
}

/// [flow, head] pairs.
void check_curve(const YamlNode& node, const std::string& what, ProblemList& problems) {
  if (node.kind != YamlNode::Kind::List) {
    report_wrong_shape(node, what, "a list of pairs [flow, head] is", problems);
    return;
  }
  for (const YamlNode& pair : node.items) {
    if (pair.kind != YamlNode::Kind::List || pair.items.size() != 2) {
      report_wrong_shape(pair, "point in " + what, "a pair [flow, head] is", problems);
      continue;
    }
    (void)read_value(pair.items[0], "flow in " + what, parse_flow, problems);
    (void)read_value(pair.items[1], "head in " + what, parse_length, problems);
  }
}

/// One value, or a list of repeats.
template <class Value>
void check_repeats(const YamlNode& node,
                   const std::string& what,
                   Parsed<Value> (*parse)(std::string_view),
                   ProblemList& problems) {
  if (node.kind != YamlNode::Kind::List) {
    (void)read_value(node, what, parse, problems);
    return;
  }
  for (const YamlNode& item : node.items) {
    (void)read_value(item, what, parse, problems);
  }
}

int days_in(int year, int month) {
  constexpr std::array<int, 12> days = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return month == 2 && leap ? 29 : days[static_cast<std::size_t>(month - 1)];
}

/// 2026-08-14.
bool is_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') {
    return false;
  }
  std::array<int, 3> parts{};
  std::size_t part = 0;
  for (const char c : text) {
    if (c == '-') {
      ++part;
    } else if (c >= '0' && c <= '9' && part < parts.size()) {
      parts[part] = parts[part] * 10 + (c - '0');
    } else {
      return false;
    }
  }
  const auto [year, month, day] = parts;
  return year > 0 && month >= 1 && month <= 12 && day >= 1 && day <= days_in(year, month);
}

constexpr std::array<std::string_view, 6> instruments = {
    "bucket", "gauge", "hand level", "builder's level", "water level", "phone"};

void check_measured_at(const MapReader& map, const NameRegistry& names, ProblemList& problems) {
  const YamlNode* const value = map.require("at", "NAME of a place");
  const std::string* const name =
      value == nullptr ? nullptr : read_text(*value, map.part("at"), problems);
  if (name != nullptr && !names.find(NameRegistry::Kind::Pipe, *name)) {
    (void)names.look_up(
        NameRegistry::Kind::Place, *name, value->position, map.part("at"), problems);
  }
}

void check_one_measured(const YamlNode& node, const NameRegistry& names, ProblemList& problems) {
  static constexpr std::array<std::string_view, 6> keys = {
      "at", "flow", "pressure", "level", "on", "with"};
  const MapReader map(node, Subject{"measured", node.position}, keys, problems);
  if (!map.is_map()) {
    return;
  }
  check_measured_at(map, names, problems);
  const int values =
      (map.has("flow") ? 1 : 0) + (map.has("pressure") ? 1 : 0) + (map.has("level") ? 1 : 0);
  if (values != 1) {
    problems.add(values == 0 ? "missing-key" : "contradictory",
                 node.position,
                 "measured wants one of flow, pressure and level",
                 "write {at: house pond, flow: 1 gal in 16 s, on: 2026-08-14}");
  }
  if (const YamlNode* const value = map.find("flow")) {
    check_repeats(*value, map.part("flow"), parse_flow, problems);
  }
  if (const YamlNode* const value = map.find("pressure")) {
    check_repeats(*value, map.part("pressure"), parse_pressure, problems);
  }
  if (const YamlNode* const value = map.find("level")) {
    check_repeats(*value, map.part("level"), parse_elevation, problems);
  }
  if (const YamlNode* const value = map.find("on")) {
    const std::string* const text = read_text(*value, map.part("on"), problems);
    if (text != nullptr && !is_date(*text)) {
      problems.add("not-a-date",
                   value->position,
                   fmt::format("{}: '{}' is not a date", map.part("on"), *text),
                   "write year-month-day, such as 2026-08-14");
    }
  }
  if (const YamlNode* const value = map.find("with")) {
    const std::string* const text = read_text(*value, map.part("with"), problems);
    if (text != nullptr &&
        std::find(instruments.begin(), instruments.end(), *text) == instruments.end()) {
      report_unknown_word("unknown-word",
                          value->position,
                          fmt::format("{}: '{}' is not one of its words", map.part("with"), *text),
                          *text,
                          instruments,
                          problems);
    }
  }
}

/// A map from free names to values that `check` looks at.
template <class Check>
void check_named_values(const YamlNode& node,
                        const Subject& subject,
                        const Check& check,
                        ProblemList& problems) {
  if (node.kind != YamlNode::Kind::Map) {
    report_wrong_shape(node, subject.name, "keys with values are", problems);
    return;
  }
  for (const YamlEntry& entry : node.entries) {
    check(entry, fmt::format("{} of {}", subject.name, entry.key));
  }
}

}  // namespace

void read_pump(const YamlEntry& entry,
               const NameRegistry& names,
               std::vector<Join>& joins,
               Reading& reading) {
  static constexpr std::array<std::string_view, 5> keys = {
      "from", "to", "curve", "runs", "efficiency"};
  ProblemList& problems = reading.problems;
  const MapReader map(
      entry.value, Subject{fmt::format("pump '{}'", entry.key), entry.position}, keys, problems);
  reading.unsolved.push_back(UnsolvedKey{map.subject().name, entry.position});
  const auto from = read_name(map, "from", NameRegistry::Kind::Place, names, problems);
  const auto to = read_name(map, "to", NameRegistry::Kind::Place, names, problems);
  if (from && to) {
    joins.emplace_back(*from, *to);
  }
  if (const YamlNode* const value = map.find("curve")) {
    check_curve(*value, map.part("curve"), problems);
  }
  if (const YamlNode* const value = map.find("runs")) {
    check_clock_ranges(*value, map.part("runs"), HoursToo::Yes, problems);
  }
  check_efficiency(map, problems);
}

void read_ram(const YamlEntry& entry,
              const Farm& farm,
              const NameRegistry& names,
              std::vector<Join>& joins,
              Reading& reading) {
  static constexpr std::array<std::string_view, 4> keys = {
      "drive", "delivery", "level", "efficiency"};
  ProblemList& problems = reading.problems;
  const MapReader map(
      entry.value, Subject{fmt::format("ram '{}'", entry.key), entry.position}, keys, problems);
  reading.unsolved.push_back(UnsolvedKey{map.subject().name, entry.position});
  const auto drive = read_name(map, "drive", NameRegistry::Kind::Pipe, names, problems);
  const auto delivery = read_name(map, "delivery", NameRegistry::Kind::Pipe, names, problems);
  if (drive && delivery && *drive < farm.pipes.size() && *delivery < farm.pipes.size()) {
    joins.emplace_back(farm.pipes[*drive].to, farm.pipes[*delivery].from);
  }
  if (const YamlNode* const value = map.find("level")) {
    (void)read_level(*value, map.part("level"), problems);
  }
  check_efficiency(map, problems);
}

void check_measured(const YamlNode& node, const NameRegistry& names, ProblemList& problems) {
  if (node.kind != YamlNode::Kind::List) {
    report_wrong_shape(node, "measured", "a list, each line starting with '- ', is", problems);
    return;
  }
  for (const YamlNode& item : node.items) {
    check_one_measured(item, names, problems);
  }
}

void check_prices(const YamlNode& node, SourcePosition key, ProblemList& problems) {
  check_named_values(
      node,
      Subject{"prices", key},
      [&](const YamlEntry& entry, const std::string& what) {
        check_free_text(entry.value, what, problems);
      },
      problems);
}

void check_stock(const YamlNode& node, SourcePosition key, ProblemList& problems) {
  check_named_values(
      node,
      Subject{"stock", key},
      [&](const YamlEntry& entry, const std::string& what) {
        (void)read_value(entry.value, what, parse_length, problems);
      },
      problems);
}

}  // namespace leat::model
