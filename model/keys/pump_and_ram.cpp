#include "model/keys/pump_and_ram.h"

#include <utility>

#include <fmt/format.h>

#include "model/keys/hour_keys.h"
#include "model/keys/kinds.h"
#include "model/keys/named.h"

namespace leat::model {
namespace {

constexpr Range<double> efficiency_range{0.0, 1.0, "above 0 and at most 1", false};

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

bool read_curve_key(const KeyValue& value, PumpDraft& draft) {
  draft.pump.curve = read_curve(value.node, value.what, value.problems());
  return !draft.pump.curve.empty();
}

bool read_runs(const KeyValue& value, PumpDraft& draft) {
  RunTimes runs = read_run_times(value.node, value.what, HoursToo::Yes, value.problems());
  draft.pump.runs = std::move(runs.ranges);
  draft.pump.hours_a_day = runs.hours_a_day;
  return !draft.pump.runs.empty() || draft.pump.hours_a_day.has_value();
}

}  // namespace

const Keys<PumpDraft>& pump_keys() {
  static const Keys<PumpDraft> keys(
      {"pump", "A pump that lifts water from one place to another."},
      {key<PumpDraft>("from",
                      named(NameRegistry::Kind::Place, &PumpDraft::from),
                      {.sentence = "Name of the place it draws from: a spring, creek, pond, tank "
                                   "or tee, such as house pond.",
                       .required = "NAME",
                       .told = "names of places. It draws from a spring, creek, pond, tank or tee, "
                               "and needs no pipe",
                       .is_aside = true}),
       key<PumpDraft>("to",
                      named(NameRegistry::Kind::Place, &PumpDraft::to),
                      {.sentence = "Name of the place it lifts to, such as hill tank.",
                       .required = "NAME",
                       .is_aside = true}),
       key<PumpDraft>("curve",
                      own(Kind{"pump_curve"}, read_curve_key),
                      {.sentence = "The maker's points [flow, head], two or more, such as [[0 "
                                   "L/min, 12 m], [40 L/min, 8 m]]: flows rise, heads fall.",
                       .required = "[[0 L/min, 20 m], [40 L/min, 12 m]]",
                       .told = "the maker's points `[[0 L/min, 20 m], [40 L/min, 12 m], ...]`, two "
                               "or more: the flows rise, the heads fall"}),
       key<PumpDraft>(
           "runs",
           own(Kind{"run_times"}, read_runs),
           {.sentence = "When it runs: hours of the clock, or hours a day. All day unless given.",
            .examples = {"4 h/day", "6:00-9:00"},
            .told = "hours of the clock, or hours a day (`4 h/day`, around noon)",
            .if_absent = "all day"}),
       key<PumpDraft>(
           "efficiency",
           share(
               [](PumpDraft & draft) -> auto& { return draft.pump.efficiency; }, efficiency_range),
           {.sentence = "Of pump and motor together, for the power it draws.",
            .examples = {"40 %"},
            .told = "of pump and motor together, above 0 and at most 1: for the power it draws",
            .if_absent = "power not told"})});
  return keys;
}

const Keys<RamDraft>& ram_keys() {
  static const Keys<RamDraft> keys(
      {"ram", "A hydraulic ram between the end of a drive pipe and the start of a delivery pipe."},
      {key<RamDraft>("drive",
                     named(NameRegistry::Kind::Pipe, &RamDraft::drive),
                     {.sentence = "Name of the drive pipe, which ends where the delivery pipe "
                                  "starts, such as drive pipe.",
                      .required = "NAME",
                      .told = "names of pipes. The drive pipe ends where the delivery pipe starts, "
                              "best at a tee: the ram. The drive pipe pours out there; other pipes "
                              "at the tee are on the delivery's side"}),
       key<RamDraft>(
           "delivery",
           named(NameRegistry::Kind::Pipe, &RamDraft::delivery),
           {.sentence = "Name of the delivery pipe, such as rising pipe.", .required = "NAME"}),
       key<RamDraft>(
           "level",
           level([](RamDraft & draft) -> auto& { return draft.ram.level; }),
           {.sentence = "Level of its waste valve; that of the drive pipe's end unless given.",
            .examples = {"95 ft", "29 m"},
            .told = "of its waste valve",
            .if_absent = "of the drive pipe's end"}),
       key<RamDraft>(
           "takes",
           quantity<Flow>([](RamDraft & draft) -> auto& { return draft.ram.takes; }),
           {.sentence =
                "Drive flow that its valve is set to; what the drive pipe brings unless given.",
            .examples = {"5 gal/min", "20 L/min"},
            .told = "the drive flow its valve is set to",
            .if_absent = "what the drive pipe brings; from a spring 999 thousandths of the yield"}),
       key<RamDraft>(
           "efficiency",
           share(
               [](RamDraft & draft) -> auto& { return draft.ram.efficiency; }, efficiency_range),
           {.sentence =
                "Lifted flow x lift over drive flow x fall; an old trade table unless given.",
            .examples = {"60 %"},
            .told = "lifted flow x lift over drive flow x fall, above 0 and at most 1",
            .if_absent =
                "an old trade table by lift over fall: 0.72 at 4, 0.44 at 10, nothing at 26"})});
  return keys;
}

void read_pump(const YamlEntry& entry,
               const NameRegistry& names,
               Farm& farm,
               std::vector<Join>& joins,
               LoadContext& context) {
  ProblemList& problems = context.problems;
  const MapReader map(entry.value,
                      Subject{fmt::format("pump '{}'", entry.key), entry.position},
                      pump_keys().names(),
                      problems);
  PumpDraft draft{{}, names, {}, {}};
  Pump& pump = draft.pump;
  pump.name = entry.key;
  pump.position = entry.position;
  pump_keys().read(map, draft, context);
  if (draft.from) {
    check_pump_draws(farm, *draft.from, *map.find("from"), map.part("from"), problems);
  }
  if (draft.from && draft.to) {
    if (*draft.from == *draft.to) {
      problems.add("contradictory",
                   map.position_of("to"),
                   fmt::format("{}: from and to are one place", map.subject().name),
                   "a pump lifts water from one place to another");
    }
    joins.emplace_back(*draft.from, *draft.to);
    pump.from = *draft.from;
    pump.to = *draft.to;
    farm.pumps.push_back(std::move(pump));
  }
}

void read_ram(const YamlEntry& entry,
              const NameRegistry& names,
              Farm& farm,
              std::vector<Join>& joins,
              LoadContext& context) {
  const MapReader map(entry.value,
                      Subject{fmt::format("ram '{}'", entry.key), entry.position},
                      ram_keys().names(),
                      context.problems);
  RamDraft draft{{}, names, {}, {}};
  Ram& ram = draft.ram;
  ram.name = entry.key;
  ram.position = entry.position;
  ram_keys().read(map, draft, context);
  const auto [drive, delivery] = std::pair(draft.drive, draft.delivery);
  if (drive && delivery && *drive < farm.pipes.size() && *delivery < farm.pipes.size()) {
    joins.emplace_back(farm.pipes[*drive].to, farm.pipes[*delivery].from);
    ram.drive = *drive;
    ram.delivery = *delivery;
    check_ram_pipes(farm, ram, context.problems);
    farm.rams.push_back(std::move(ram));
  }
}

}  // namespace leat::model
