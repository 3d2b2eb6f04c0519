#include "model/keys/valve.h"

#include <array>

#include <fmt/format.h>

#include "model/catalogue/fitting_catalogue.h"
#include "model/keys/kinds.h"

namespace leat::model {
namespace {

constexpr std::array<Word<ValveType>, 2> valve_types = {
    {{"gate", ValveType::Gate}, {"ball", ValveType::Ball}}};

/// A valve that is told both open and shut is neither.
bool is_told_twice(const MapReader& map) {
  return map.has("open") && map.has("shut");
}

bool read_open(const KeyValue& value, ValveDraft& draft) {
  if (is_told_twice(value.map)) {
    return false;
  }
  const auto open = read_value(value.node, value.what, parse_share, value.problems());
  set_if(draft.part.open, open);
  if (open && draft.type && *open < least_opening(*draft.type)) {
    const bool gate = *draft.type == ValveType::Gate;
    value.problems().add("valve-too-tight",
                         value.node.position,
                         fmt::format("{}: '{}' is tighter than the table of {} valves goes",
                                     value.what,
                                     value.node.text,
                                     gate ? "gate" : "ball"),
                         fmt::format("write {} to 1, or shut: yes", gate ? "1/8" : "1/3"));
    return false;
  }
  return open.has_value();
}

bool read_shut(const KeyValue& value, ValveDraft& draft) {
  const auto shut = is_told_twice(value.map) ? std::nullopt
                                             : read_truth(value.node, value.what, value.problems());
  set_if(draft.part.shut, shut);
  return shut.has_value();
}

}  // namespace

const Keys<ValveDraft>& valve_keys() {
  static const Keys<ValveDraft> keys(
      {"valve", ""},
      {key<ValveDraft>("type",
                       word(&ValveDraft::type, valve_types),
                       {.sentence = "What kind of valve it is; its loss part open follows from it.",
                        .required = "gate",
                        .told = "gate or ball"}),
       key<ValveDraft>("open",
                       own(Kind{"share"}, read_open),
                       {.sentence = "How far it is open. Gate: share of the stem's travel, at "
                                    "least 1/8; ball: 1 - angle / 90, at least 1/3.",
                        .examples = {"3/8", "40 %"},
                        .told = "gate: share of the stem's travel, at least 1/8; ball: 1 - "
                                "angle/90, at least 1/3. A fraction, a decimal or %",
                        .if_absent = "fully open"}),
       key<ValveDraft>("shut",
                       own(Kind{truth_definition}, read_shut),
                       {.sentence = "yes: it is shut. Instead of open.",
                        .told = "yes, instead of `open`. A shut valve makes no island",
                        .if_absent = "no"}),
       key<ValveDraft>("at",
                       placement([](ValveDraft & draft) -> auto& { return draft.part.place; }),
                       {.sentence = "Where it sits: start, end, or a distance along the pipe. "
                                    "Needed where the pipe has a summit.",
                        .examples = {"end", "40 ft"},
                        .told = "start, end or a distance. Required where the pipe has a summit: "
                                "it decides the pressure there",
                        .if_absent = "spread over the length"})},
      {{KeyGroup::Stand::AtMostOne, {"open", "shut"}}});
  return keys;
}

std::optional<Valve> read_valve(const YamlNode& node,
                                const PipeReach& reach,
                                LoadContext& context) {
  const MapReader map(node,
                      Subject{reach.pipe.part("valve"), node.position},
                      valve_keys().names(),
                      context.problems);
  if (!map.is_map()) {
    return std::nullopt;
  }
  ValveDraft draft{{{}, reach}, {}};
  draft.part.position = node.position;
  valve_keys().read(map, draft, context);
  set_if(draft.part.type, draft.type);
  if (is_told_twice(map)) {
    context.problems.add("contradictory",
                         map.position_of("shut"),
                         fmt::format("{} is both open and shut", map.subject().name),
                         "keep one");
  }
  if (!map.has("at") && reach.has_summit) {
    context.problems.add(
        "valve-needs-place",
        node.position,
        fmt::format("{} has no place, and the pipe has a summit", map.subject().name),
        "add 'at: start', 'at: end' or a distance: it decides the summit's pressure");
  }
  return draft.part;
}

}  // namespace leat::model
