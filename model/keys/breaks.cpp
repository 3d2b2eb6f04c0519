#include "model/keys/breaks.h"

#include <fmt/format.h>

#include "model/keys/measured.h"

namespace leat::model {

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
