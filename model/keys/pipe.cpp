#include "model/keys/pipe.h"

#include <array>
#include <functional>
#include <utility>

#include <fmt/format.h>

#include "model/keys/fitting_reader.h"
#include "model/keys/instrument_words.h"
#include "model/keys/kinds.h"
#include "model/keys/named.h"
#include "model/keys/path_reader.h"
#include "model/keys/valve.h"
#include "model/keys/vent_and_regulator.h"

namespace leat::model {
namespace {

/// A path's own length may pass the measured one by so much: tapes and levels are no better.
constexpr double path_excess = 0.005;

constexpr std::array<Word<TankEntry>, 2> tank_entries = {
    {{"rim", TankEntry::Rim}, {"bottom", TankEntry::Bottom}}};

constexpr std::array<Word<Lies>, 3> beds = {
    {{"buried", Lies::Buried}, {"grass", Lies::Grass}, {"sun", Lies::Sun}}};

/// Where a value goes in the pipe itself.
template <class Member>
auto in_pipe(Member member) {
  return [member](PipeDraft & draft) -> auto& {
    return std::invoke(member, draft.pipe);
  };
}

bool read_size(const KeyValue& value, PipeDraft& draft) {
  const auto size = draft.sizes.read(value.node, value.map.subject(), value.context);
  set_if(draft.pipe.size, size);
  return size.has_value();
}

/// A path gives the pipe its length, or is at most as long as the pipe.
bool read_path_key(const KeyValue& value, PipeDraft& draft) {
  Pipe& pipe = draft.pipe;
  set_if(pipe.path, read_path(value.node, value.map.subject(), value.context));
  if (pipe.path.empty()) {
    return false;
  }
  const Length own = slope_length(pipe.path);
  if (!value.map.has("length")) {
    pipe.length = own;
    if (!length_range.holds(own)) {
      value.problems().add("out-of-range",
                           value.node.position,
                           fmt::format("{} is {:.3g} m long", value.what, in_metres(own)),
                           fmt::format("a pipe's length must be {}", length_range.told));
      return false;
    }
    return true;
  }
  const bool is_length_sound = Length() < pipe.length;
  if (is_length_sound && pipe.length * (1.0 + path_excess) < own) {
    value.problems().add(
        "path-longer-than-pipe",
        value.map.find("length")->position,
        fmt::format("{} is {:.2f} m, but its path alone is {:.2f} m long",
                    value.map.part("length"),
                    in_metres(pipe.length),
                    in_metres(own)),
        "a pipe is at least as long as its path: measure again, or leave out the length");
    return false;
  }
  return true;
}

/// What the readers of the pipe's parts must know of it; asked once size, length and path are read.
const PipeReach& reach_of(const KeyValue& value, PipeDraft& draft) {
  if (!draft.reach) {
    const Pipe& pipe = draft.pipe;
    PipeReach& reach = draft.reach.emplace();
    reach.pipe = value.map.subject();
    reach.bore = pipe.size.bore;
    reach.has_summit = has_summit(pipe.path);
    if (!pipe.path.empty()) {
      reach.reach = pipe.path.back().distance;
    } else if (Length() < pipe.length && !value.map.has("path")) {
      reach.reach = pipe.length;
    }
  }
  return *draft.reach;
}

bool read_fittings_key(const KeyValue& value, PipeDraft& draft) {
  draft.pipe.fittings = read_fittings(value.node, reach_of(value, draft), value.problems());
  return true;
}

bool read_valve_key(const KeyValue& value, PipeDraft& draft) {
  draft.pipe.valve = read_valve(value.node, reach_of(value, draft), value.context);
  return draft.pipe.valve.has_value();
}

bool read_vents_key(const KeyValue& value, PipeDraft& draft) {
  draft.pipe.vents = read_vents(value.node, reach_of(value, draft), value.context);
  return true;
}

bool read_regulator_key(const KeyValue& value, PipeDraft& draft) {
  draft.pipe.regulator = read_regulator(value.node, reach_of(value, draft), value.context);
  return draft.pipe.regulator.has_value();
}

/// Who took the levels is for people to read: it goes nowhere.
bool read_surveyor(const KeyValue& value, PipeDraft&) {
  return read_text(value.node, value.what, value.problems()) != nullptr;
}

std::vector<Key<PipeDraft>> course_keys() {
  return {
      key<PipeDraft>("from",
                     named(NameRegistry::Kind::Place, &PipeDraft::from),
                     {.sentence = "Name of the place where it starts: a spring, creek, pond, tank "
                                  "or tee, such as gate tee.",
                      .required = "NAME of a place",
                      .told = "names of places. A pipe starts at a spring, creek, pond, tank or "
                              "tee and ends at a creek, pond, tank, tee, trough or outlet",
                      .is_aside = true}),
      key<PipeDraft>("to",
                     named(NameRegistry::Kind::Place, &PipeDraft::to),
                     {.sentence = "Name of the place where it ends: a creek, pond, tank, tee, "
                                  "trough or outlet, such as north.",
                      .required = "NAME of a place",
                      .is_aside = true}),
      key<PipeDraft>(
          "size",
          own(Kind{.definition = "catalogue_size", .words = {"choose"}, .keys = &own_size_keys()},
              read_size),
          {.sentence = "A name of the catalogue, with its rating or without; choose, for leat "
                       "size; or {bore: 26.6 mm}. leat pipes lists the names.",
           .examples = {"1 in SIDR 15", "1 in SIDR 15, 100 psi", "32 mm PE100 SDR 11"},
           .required = "1 in SIDR 15",
           .told = "see \"Sizes\""}),
      key<PipeDraft>("length",
                     quantity(in_pipe(&Pipe::length), length_range),
                     {.sentence = "Length of the pipe itself; from the path unless given.",
                      .examples = {"260 ft", "80 m"},
                      .told = "of the pipe itself, 1 mm to 100 km. Either it or a path is required",
                      .if_absent = "the path's sloping stretches"}),
      key<PipeDraft>(
          "path",
          own(Kind{.definition = "path_points", .or_csv = true}, read_path_key),
          {.sentence = "Points [distance along the ground, level] from its start, such as [[0 ft, "
                       "130.5 ft], [340 ft, 125 ft]], or the name of a CSV file.",
           .told = "points `[distance along the ground, level]` from the pipe's start to its end, "
                   "or the name of a CSV file beside the farm file",
           .if_absent = "straight between its ends",
           .is_aside = true})};
}

std::vector<Key<PipeDraft>> part_keys() {
  return {
      key<PipeDraft>("fittings",
                     own(Kind{"fittings"}, read_fittings_key),
                     {.sentence = "What sits in the line, such as [strainer, 2 elbow, {hinged foot "
                                  "valve: start}]. leat fittings lists the names.",
                      .told = "a list of `NAME`, `COUNT NAME` (1 to 1000), `k NUMBER` (0 to 1 000 "
                              "000), `contraction from BORE`, `expansion to BORE`, or `{any of "
                              "these: start / end / distance}`; names from `leat fittings`",
                      .if_absent = "none",
                      .is_aside = true}),
      key<PipeDraft>(
          "valve",
          own(Kind{.keys = &valve_keys()}, read_valve_key),
          {.sentence = "A valve part open or shut, such as {type: gate, open: 3/8, at: end}.",
           .told = "see \"Valves\"",
           .if_absent = "none"}),
      key<PipeDraft>("one-way",
                     truth(in_pipe(&Pipe::one_way)),
                     {.sentence = "yes: water runs from start to end only.",
                      .told = "yes: water runs from `from` to `to` only",
                      .if_absent = "no"}),
      key<PipeDraft>(
          "vents",
          own(Kind{.definition = "length", .keys = &vent_keys(), .is_list = true}, read_vents_key),
          {.sentence = "Where it is open to the air, such as [40 m, {at: 60 m, top: 101 m}].",
           .told = "places open to the air, see \"Vents and regulators\"",
           .if_absent = "none",
           .is_aside = true}),
      key<PipeDraft>("regulator",
                     own(Kind{.keys = &regulator_keys()}, read_regulator_key),
                     {.sentence = "Holds the pressure below it, such as {at: start, set: 15 psi}; "
                                  "makes the pipe one-way.",
                      .told = "holds a pressure, see \"Vents and regulators\"",
                      .if_absent = "none"})};
}

std::vector<Key<PipeDraft>> end_keys() {
  return {key<PipeDraft>(
              "ends",
              level(in_pipe(&Pipe::ends)),
              {.sentence = "Level of the pipe's end in open water, above the surface or below it.",
               .examples = {"106 ft", "31 m"},
               .told = "level of the pipe's end in open water",
               .if_absent = "below, \"Ends\""}),
          key<PipeDraft>(
              "enters",
              word(in_pipe(&Pipe::enters), tank_entries),
              {.sentence = "How it enters a tank: over the rim, unless given, or at the bottom.",
               .told = "rim or bottom: how it enters a tank",
               .if_absent = "rim"}),
          key<PipeDraft>(
              "entrance",
              number(in_pipe(&Pipe::entrance_k), loss_coefficient_range),
              {.sentence = "Loss coefficient K at the from end; 0.5 from open water unless given.",
               .examples = {"0.5"},
               .told = "K at the `from` end and at the `to` end, 0 to 1 000 000; once given, each "
                       "holds in either direction",
               .if_absent = "0.5 where water enters from open water, 1.0 where it leaves",
               .is_aside = true}),
          key<PipeDraft>("exit",
                         number(in_pipe(&Pipe::exit_k), loss_coefficient_range),
                         {.sentence = "Loss coefficient K at the to end; 1 unless given.",
                          .examples = {"1"},
                          .is_aside = true})};
}

std::vector<Key<PipeDraft>> survey_keys() {
  return {
      key<PipeDraft>("lies",
                     word(in_pipe(&Pipe::lies), beds),
                     {.sentence = "Where the pipe lies: plastic in the sun bears less pressure.",
                      .told = "buried, grass or sun: for the rating in the heat, and for frost",
                      .if_absent = "20 C; frost judged with that doubt"}),
      key<PipeDraft>("surveyed with",
                     word(in_pipe(&Pipe::surveyed_with), survey_instrument_words),
                     {.sentence = "What the levels of its path were taken with.",
                      .told = "as at the top, for the levels of its path",
                      .if_absent = "the farm's",
                      .is_aside = true}),
      key<PipeDraft>("surveyed by",
                     own(Kind{"text"}, read_surveyor),
                     {.sentence = "Who took the levels of its path, in words.",
                      .examples = {"the neighbour"},
                      .told = "words",
                      .if_absent = "-",
                      .is_aside = true})};
}

void check_end_kinds(const MapReader& map, const PipeDraft& draft, ProblemList& problems) {
  const auto place = [&](std::optional<std::size_t> index) {
    return index ? &draft.farm.places[*index] : nullptr;
  };
  const Place* const from = place(draft.from);
  const Place* const to = place(draft.to);
  if (from != nullptr &&
      (std::holds_alternative<Trough>(from->data) || std::holds_alternative<Outlet>(from->data))) {
    problems.add("wrong-end",
                 map.find("from")->position,
                 fmt::format("{} starts at {} '{}', from which nothing flows",
                             map.subject().name,
                             kind_word(*from),
                             from->name),
                 "put a tee before it, and start the pipe at the tee");
  }
  if (to != nullptr && std::holds_alternative<Spring>(to->data)) {
    problems.add(
        "wrong-end",
        map.find("to")->position,
        fmt::format("{} ends at spring '{}', where pipes only start", map.subject().name, to->name),
        "turn the pipe round, or end it at a tank");
  }
  if (from != nullptr && from == to) {
    problems.add("wrong-end",
                 map.find("to")->position,
                 fmt::format("{} starts and ends at '{}'", map.subject().name, to->name),
                 "a pipe joins two places");
  }
}

void check_length(const MapReader& map, ProblemList& problems) {
  if (map.is_map() && !map.has("length") && !map.has("path")) {
    problems.add("missing-key",
                 map.subject().position,
                 fmt::format("{} has neither length nor path", map.subject().name),
                 "add 'length: 150 ft', or a path from which the length follows");
  }
}

void check_entry(const MapReader& map, const PipeDraft& draft, ProblemList& problems) {
  const bool is_joined = draft.from && draft.to;
  const bool to_tank =
      !is_joined || std::holds_alternative<Tank>(draft.farm.places[*draft.to].data);
  if (map.find("enters") != nullptr && !to_tank) {
    problems.add("wrong-end",
                 map.position_of("enters"),
                 fmt::format("{} enters no tank", map.subject().name),
                 "rim and bottom are ways into a tank");
  }
}

}  // namespace

const Keys<PipeDraft>& pipe_keys() {
  static const Keys<PipeDraft> keys(
      {"pipe", "A pipe between two places."},
      joined<PipeDraft>({course_keys(), part_keys(), end_keys(), survey_keys()}),
      {{KeyGroup::Stand::AtLeastOne, {"length", "path"}}});
  return keys;
}

ReadPipe PipeReader::read(const YamlEntry& entry) {
  ProblemList& problems = context_.problems;
  const std::size_t before = problems.count();
  const MapReader map(entry.value,
                      Subject{fmt::format("pipe '{}'", entry.key), entry.position},
                      pipe_keys().names(),
                      problems);
  PipeDraft draft{{}, farm_, names_, sizes_, {}, {}, {}};
  draft.pipe.name = entry.key;
  draft.pipe.position = entry.position;
  pipe_keys().read(map, draft, context_);
  check_end_kinds(map, draft, problems);
  check_length(map, problems);
  check_entry(map, draft, problems);
  ReadPipe read;
  read.joined = draft.from && draft.to;
  read.pipe = std::move(draft.pipe);
  set_if(read.pipe.from, draft.from);
  set_if(read.pipe.to, draft.to);
  read.sound = map.is_map() && read.joined && problems.count() == before;
  return read;
}

}  // namespace leat::model
