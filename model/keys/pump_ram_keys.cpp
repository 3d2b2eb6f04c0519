#include "model/keys/pump_ram_keys.h"

#include <array>

#include <fmt/format.h>

#include "model/keys/hour_keys.h"
#include "model/keys/measured_reader.h"
#include "model/keys/value_reader.h"

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

std::optional<double> read_efficiency(const MapReader& map, ProblemList& problems) {
  const YamlNode* const value = map.find("efficiency");
  return value == nullptr
             ? std::nullopt
             : read_within(*value, map.part("efficiency"), parse_share, efficiency_range, problems);
}

/// [flow, head] pairs, the flows rising.
std::vector<std::pair<Flow, Length>> read_curve(const YamlNode& node,
                                                const std::string& what,
                                                ProblemList& problems) {
  std::vector<std::pair<Flow, Length>> curve;
  if (node.kind != YamlNode::Kind::List) {
    report_wrong_shape(node, what, "a list of pairs [flow, head] is", problems);
    return curve;
  }
  for (const YamlNode& pair : node.items) {
    if (pair.kind != YamlNode::Kind::List || pair.items.size() != 2) {
      report_wrong_shape(pair, "point in " + what, "a pair [flow, head] is", problems);
      continue;
    }
    const auto flow = read_value(pair.items[0], "flow in " + what, parse_flow, problems);
    const auto head = read_value(pair.items[1], "head in " + what, parse_length, problems);
    if (!flow || !head) {
      continue;
    }
    if (!curve.empty() && !(curve.back().first < *flow)) {
      problems.add("not-rising",
                   pair.position,
                   fmt::format("{}: the flows do not rise", what),
                   "list the points from the smallest flow to the largest");
    } else if (!curve.empty() && !(*head < curve.back().second)) {
      problems.add("not-falling",
                   pair.position,
                   fmt::format("{}: the heads do not fall", what),
                   "the more a pump gives, the less high it lifts: give each point less head than "
                   "the one before");
    }
    curve.emplace_back(*flow, *head);
  }
  if (node.items.size() < 2) {
    problems.add("too-few-points",
                 node.position,
                 fmt::format("{} has {} point{}",
                             what,
                             node.items.empty() ? "no" : "one",
                             node.items.empty() ? "s" : ""),
                 "give two or more, such as [[0 L/min, 20 m], [40 L/min, 12 m]]: the head with its "
                 "delivery shut and the one at its usual flow");
  }
  return curve;
}

/// Water is lifted out of open water or a tee: what is beyond a float or an outlet has left the
/// pipes.
void check_pump_draws(const Farm& farm,
                      std::size_t from,
                      const YamlNode& node,
                      const std::string& what,
                      ProblemList& problems) {
  if (from >= farm.places.size()) {
    return;
  }
  const Place& place = farm.places[from];
  if (std::holds_alternative<Trough>(place.data) || std::holds_alternative<Outlet>(place.data)) {
    problems.add(
        "wrong-end",
        node.position,
        fmt::format("{}: a pump cannot draw from {} '{}'", what, kind_word(place), place.name),
        "it draws from a spring, creek, pond, tank or tee");
  }
}

/// A ram has two pipes of its own.
void check_ram_pipes(const Farm& farm, const Ram& ram, ProblemList& problems) {
  if (ram.drive == ram.delivery) {
    problems.add("contradictory",
                 ram.position,
                 fmt::format("ram '{}': drive and delivery are one pipe", ram.name),
                 "the drive pipe ends at the ram, another takes the lifted water on from there");
  }
  for (const Ram& other : farm.rams) {
    if (other.drive == ram.drive) {
      problems.add("contradictory",
                   ram.position,
                   fmt::format("ram '{}': pipe '{}' drives ram '{}' already",
                               ram.name,
                               farm.pipes[ram.drive].name,
                               other.name),
                   "give each ram a drive pipe of its own; several may share a delivery pipe");
    }
  }
}

}  // namespace

void read_pump(const YamlEntry& entry,
               const NameRegistry& names,
               Farm& farm,
               std::vector<Join>& joins,
               LoadContext& context) {
  static constexpr std::array<std::string_view, 5> keys = {
      "from", "to", "curve", "runs", "efficiency"};
  ProblemList& problems = context.problems;
  const MapReader map(
      entry.value, Subject{fmt::format("pump '{}'", entry.key), entry.position}, keys, problems);
  Pump pump;
  pump.name = entry.key;
  pump.position = entry.position;
  const auto from = read_name(map, "from", NameRegistry::Kind::Place, names, problems);
  const auto to = read_name(map, "to", NameRegistry::Kind::Place, names, problems);
  if (from) {
    check_pump_draws(farm, *from, *map.find("from"), map.part("from"), problems);
  }
  if (const YamlNode* const value = map.require("curve", "[[0 L/min, 20 m], [40 L/min, 12 m]]")) {
    pump.curve = read_curve(*value, map.part("curve"), problems);
  }
  if (const YamlNode* const value = map.find("runs")) {
    RunTimes runs = read_run_times(*value, map.part("runs"), HoursToo::Yes, problems);
    pump.runs = std::move(runs.ranges);
    pump.hours_a_day = runs.hours_a_day;
  }
  pump.efficiency = read_efficiency(map, problems);
  if (from && to) {
    if (*from == *to) {
      problems.add("contradictory",
                   map.position_of("to"),
                   fmt::format("{}: from and to are one place", map.subject().name),
                   "a pump lifts water from one place to another");
    }
    joins.emplace_back(*from, *to);
    pump.from = *from;
    pump.to = *to;
    farm.pumps.push_back(std::move(pump));
  }
}

void read_ram(const YamlEntry& entry,
              const NameRegistry& names,
              Farm& farm,
              std::vector<Join>& joins,
              LoadContext& context) {
  static constexpr std::array<std::string_view, 5> keys = {
      "drive", "delivery", "level", "takes", "efficiency"};
  ProblemList& problems = context.problems;
  const MapReader map(
      entry.value, Subject{fmt::format("ram '{}'", entry.key), entry.position}, keys, problems);
  Ram ram;
  ram.name = entry.key;
  ram.position = entry.position;
  const auto drive = read_name(map, "drive", NameRegistry::Kind::Pipe, names, problems);
  const auto delivery = read_name(map, "delivery", NameRegistry::Kind::Pipe, names, problems);
  if (const YamlNode* const value = map.find("level")) {
    ram.level = read_level(*value, map.part("level"), problems);
  }
  if (const YamlNode* const value = map.find("takes")) {
    ram.takes = read_value(*value, map.part("takes"), parse_flow, problems);
  }
  ram.efficiency = read_efficiency(map, problems);
  if (drive && delivery && *drive < farm.pipes.size() && *delivery < farm.pipes.size()) {
    joins.emplace_back(farm.pipes[*drive].to, farm.pipes[*delivery].from);
    ram.drive = *drive;
    ram.delivery = *delivery;
    check_ram_pipes(farm, ram, problems);
    farm.rams.push_back(std::move(ram));
  }
}

void read_breaks(const YamlNode& node,
                 const NameRegistry& names,
                 Farm& farm,
                 LoadContext& context) {
  ProblemList& problems = context.problems;
  if (node.kind != YamlNode::Kind::Map) {
    report_wrong_shape(
        node, "breaks", "keys with values, such as {north: 2026-08-10}, are", problems);
    return;
  }
  for (const YamlEntry& entry : node.entries) {
    const auto place =
        names.look_up(NameRegistry::Kind::Place, entry.key, entry.position, "breaks", problems);
    const auto on = read_date(entry.value, fmt::format("breaks of {}", entry.key), problems);
    if (!place || *place >= farm.places.size()) {
      continue;
    }
    const Place& broken = farm.places[*place];
    const auto* const tank = std::get_if<Tank>(&broken.data);
    if (!std::holds_alternative<Trough>(broken.data) && (tank == nullptr || !tank->float_inlet)) {
      problems.add("no-float",
                   entry.position,
                   fmt::format("breaks: {} '{}' has no float", kind_word(broken), broken.name),
                   "name a trough, or a tank with 'float inlet'");
    } else if (on) {
      farm.breaks.push_back(FloatBreak{*place, *on, entry.position});
    }
  }
}

}  // namespace leat::model
