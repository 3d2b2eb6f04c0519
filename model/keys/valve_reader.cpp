#include "model/keys/valve_reader.h"

#include <array>

#include <fmt/format.h>

#include "model/catalogue/fitting_catalogue.h"
#include "model/keys/value_reader.h"

namespace leat::model {
namespace {

constexpr std::array<Word<ValveType>, 2> valve_types = {
    {{"gate", ValveType::Gate}, {"ball", ValveType::Ball}}};

void read_opening(const MapReader& map,
                  std::optional<ValveType> type,
                  Valve& valve,
                  ProblemList& problems) {
  if (map.has("open") && map.has("shut")) {
    problems.add("contradictory",
                 map.position_of("shut"),
                 fmt::format("{} is both open and shut", map.subject().name),
                 "keep one");
    return;
  }
  if (const YamlNode* const value = map.find("shut")) {
    set_if(valve.shut, read_truth(*value, map.part("shut"), problems));
  }
  const YamlNode* const value = map.find("open");
  if (value == nullptr) {
    return;
  }
  const auto open = read_value(*value, map.part("open"), parse_share, problems);
  set_if(valve.open, open);
  if (open && type && *open < least_opening(*type)) {
    const bool gate = *type == ValveType::Gate;
    problems.add("valve-too-tight",
                 value->position,
                 fmt::format("{}: '{}' is tighter than the table of {} valves goes",
                             map.part("open"),
                             value->text,
                             gate ? "gate" : "ball"),
                 fmt::format("write {} to 1, or shut: yes", gate ? "1/8" : "1/3"));
  }
}

}  // namespace

std::optional<Valve> read_valve(const YamlNode& node,
                                const PipeReach& reach,
                                ProblemList& problems) {
  static constexpr std::array<std::string_view, 4> keys = {"type", "open", "shut", "at"};
  const MapReader map(node, Subject{reach.pipe.part("valve"), node.position}, keys, problems);
  if (!map.is_map()) {
    return std::nullopt;
  }
  Valve valve;
  valve.position = node.position;
  std::optional<ValveType> type;
  if (const YamlNode* const value = map.require("type", "gate")) {
    type = read_word(*value, map.part("type"), valve_types, problems);
    set_if(valve.type, type);
  }
  read_opening(map, type, valve, problems);
  if (const YamlNode* const value = map.find("at")) {
    valve.place = read_placement(*value, map.part("at"), reach, problems);
  } else if (!map.has("at") && reach.has_summit) {
    problems.add("valve-needs-place",
                 node.position,
                 fmt::format("{} has no place, and the pipe has a summit", map.subject().name),
                 "add 'at: start', 'at: end' or a distance: it decides the summit's pressure");
  }
  return valve;
}

}  // namespace leat::model
