#include "model/keys/vent_and_regulator.h"

#include "model/keys/kinds.h"

namespace leat::model {
namespace {

using VentDraft = PipePart<Vent>;
using RegulatorDraft = PipePart<Regulator>;

bool read_vent_distance(const KeyValue& value, VentDraft& draft) {
  const auto distance = read_distance(value.node, value.what, draft.reach, value.problems());
  set_if(draft.part.distance, distance);
  return distance.has_value();
}

std::optional<Vent> read_vent(const YamlNode& node, const PipeReach& reach, LoadContext& context) {
  const std::string what = "vent of " + reach.pipe.name;
  VentDraft draft{{}, reach};
  if (node.kind != YamlNode::Kind::Map) {
    const auto distance = read_distance(node, what, reach, context.problems);
    set_if(draft.part.distance, distance);
    return distance ? std::optional(draft.part) : std::nullopt;
  }
  const MapReader map(node, Subject{what, node.position}, vent_keys().names(), context.problems);
  vent_keys().read(map, draft, context);
  return draft.part;
}

}  // namespace

const Keys<VentDraft>& vent_keys() {
  static const Keys<VentDraft> keys(
      {"vents", "A standpipe."},
      {key<VentDraft>("at",
                      own(Kind{"length"}, read_vent_distance),
                      {.sentence = "Distance along the pipe from its start.",
                       .examples = {"120 ft", "40 m"},
                       .required = "40 m",
                       .told = "distance"}),
       key<VentDraft>("top",
                      level([](VentDraft & draft) -> auto& { return draft.part.top; }),
                      {.sentence = "Level of the standpipe's top: water spills above it. Without "
                                   "it air comes in and no water out.",
                       .examples = {"131.5 ft", "40 m"},
                       .told = "level of a standpipe's top: water stands in it, and spills over it",
                       .if_absent = "air in, no water out"})});
  return keys;
}

const Keys<RegulatorDraft>& regulator_keys() {
  static const Keys<RegulatorDraft> keys(
      {"regulator", ""},
      {key<RegulatorDraft>(
           "at",
           placement([](RegulatorDraft & draft) -> auto& { return draft.part.place; }),
           {.sentence = "Where it sits: start, end, or a distance along the pipe.",
            .examples = {"start", "120 ft"},
            .required = "start",
            .told = "start, end or a distance"}),
       key<RegulatorDraft>(
           "set",
           quantity<Pressure>([](RegulatorDraft & draft) -> auto& { return draft.part.set; }),
           {.sentence = "Gauge pressure that it holds just below it.",
            .examples = {"15 psi", "1 bar"},
            .required = "30 psi",
            .told = "gauge pressure held just below it"})});
  return keys;
}

std::vector<Vent> read_vents(const YamlNode& node, const PipeReach& reach, LoadContext& context) {
  std::vector<Vent> vents;
  if (node.kind != YamlNode::Kind::List) {
    report_wrong_shape(
        node, reach.pipe.part("vents"), "a list, such as [40 m], is", context.problems);
    return vents;
  }
  for (const YamlNode& item : node.items) {
    if (const auto vent = read_vent(item, reach, context)) {
      vents.push_back(*vent);
    }
  }
  return vents;
}

std::optional<Regulator> read_regulator(const YamlNode& node,
                                        const PipeReach& reach,
                                        LoadContext& context) {
  const MapReader map(node,
                      Subject{reach.pipe.part("regulator"), node.position},
                      regulator_keys().names(),
                      context.problems);
  RegulatorDraft draft{{}, reach};
  regulator_keys().read(map, draft, context);
  return map.is_map() ? std::optional(draft.part) : std::nullopt;
}

}  // namespace leat::model
