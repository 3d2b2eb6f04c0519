#include "model/keys/pipe_reader.h"

#include <array>

#include <fmt/format.h>

#include "model/keys/fitting_reader.h"
#include "model/keys/hour_keys.h"
#include "model/keys/measured_reader.h"
#include "model/keys/path_reader.h"
#include "model/keys/value_reader.h"
#include "model/keys/valve_reader.h"

namespace leat::model {
namespace {

/// A path's own length may pass the measured one by so much: tapes and levels are no better.
constexpr double path_excess = 0.005;

constexpr std::array<std::string_view, 17> pipe_keys = {"from",
                                                        "to",
                                                        "size",
                                                        "length",
                                                        "path",
                                                        "fittings",
                                                        "valve",
                                                        "one-way",
                                                        "vents",
                                                        "regulator",
                                                        "ends",
                                                        "enters",
                                                        "entrance",
                                                        "exit",
                                                        "lies",
                                                        "surveyed with",
                                                        "surveyed by"};

constexpr std::array<Word<TankEntry>, 2> tank_entries = {
    {{"rim", TankEntry::Rim}, {"bottom", TankEntry::Bottom}}};

constexpr std::array<Word<Lies>, 3> beds = {
    {{"buried", Lies::Buried}, {"grass", Lies::Grass}, {"sun", Lies::Sun}}};

std::optional<Vent> read_vent(const YamlNode& node, const PipeReach& reach, ProblemList& problems) {
  static constexpr std::array<std::string_view, 2> keys = {"at", "top"};
  const std::string what = "vent of " + reach.pipe.name;
  Vent vent;
  if (node.kind != YamlNode::Kind::Map) {
    const auto distance = read_distance(node, what, reach, problems);
    set_if(vent.distance, distance);
    return distance ? std::optional(vent) : std::nullopt;
  }
  const MapReader map(node, Subject{what, node.position}, keys, problems);
  if (const YamlNode* const value = map.require("at", "40 m")) {
    set_if(vent.distance, read_distance(*value, map.part("at"), reach, problems));
  }
  if (const YamlNode* const value = map.find("top")) {
    vent.top = read_level(*value, map.part("top"), problems);
  }
  return vent;
}

std::vector<Vent> read_vents(const YamlNode& node, const PipeReach& reach, ProblemList& problems) {
  std::vector<Vent> vents;
  if (node.kind != YamlNode::Kind::List) {
    report_wrong_shape(node, reach.pipe.part("vents"), "a list, such as [40 m], is", problems);
    return vents;
  }
  for (const YamlNode& item : node.items) {
    if (const auto vent = read_vent(item, reach, problems)) {
      vents.push_back(*vent);
    }
  }
  return vents;
}

std::optional<Regulator> read_regulator(const YamlNode& node,
                                        const PipeReach& reach,
                                        ProblemList& problems) {
  static constexpr std::array<std::string_view, 2> keys = {"at", "set"};
  const MapReader map(node, Subject{reach.pipe.part("regulator"), node.position}, keys, problems);
  Regulator regulator;
  if (const YamlNode* const value = map.require("at", "start")) {
    set_if(regulator.place, read_placement(*value, map.part("at"), reach, problems));
  }
  if (const YamlNode* const value = map.require("set", "30 psi")) {
    set_if(regulator.set, read_value(*value, map.part("set"), parse_pressure, problems));
  }
  return map.is_map() ? std::optional(regulator) : std::nullopt;
}

std::optional<double> read_end_loss(const MapReader& map,
                                    std::string_view key,
                                    ProblemList& problems) {
  const YamlNode* const value = map.find(key);
  if (value == nullptr) {
    return std::nullopt;
  }
  return read_within(*value, map.part(key), parse_number, loss_coefficient_range, problems);
}

void read_parts(const MapReader& map, const PipeReach& reach, Pipe& pipe, ProblemList& problems) {
  if (const YamlNode* const value = map.find("fittings")) {
    pipe.fittings = read_fittings(*value, reach, problems);
  }
  if (const YamlNode* const value = map.find("valve")) {
    pipe.valve = read_valve(*value, reach, problems);
  }
  if (const YamlNode* const value = map.find("vents")) {
    pipe.vents = read_vents(*value, reach, problems);
  }
  if (const YamlNode* const value = map.find("regulator")) {
    pipe.regulator = read_regulator(*value, reach, problems);
  }
  if (const YamlNode* const value = map.find("one-way")) {
    set_if(pipe.one_way, read_truth(*value, map.part("one-way"), problems));
  }
  if (const YamlNode* const value = map.find("lies")) {
    set_if(pipe.lies, read_word(*value, map.part("lies"), beds, problems));
  }
  pipe.entrance_k = read_end_loss(map, "entrance", problems);
  pipe.exit_k = read_end_loss(map, "exit", problems);
  if (const YamlNode* const value = map.find("surveyed with")) {
    set_if(pipe.surveyed_with, read_survey_instrument(*value, map.part("surveyed with"), problems));
  }
  if (const YamlNode* const value = map.find("surveyed by")) {
    check_free_text(*value, map.part("surveyed by"), problems);
  }
}

}  // namespace

ReadPipe PipeReader::read(const YamlEntry& entry) {
  ProblemList& problems = context_.problems;
  const std::size_t before = problems.count();
  const MapReader map(entry.value,
                      Subject{fmt::format("pipe '{}'", entry.key), entry.position},
                      pipe_keys,
                      problems);
  ReadPipe read;
  Pipe& pipe = read.pipe;
  pipe.name = entry.key;
  pipe.position = entry.position;
  const auto from = read_end(map, "from");
  const auto to = read_end(map, "to");
  set_if(pipe.from, from);
  set_if(pipe.to, to);
  read.joined = from && to;
  check_end_kinds(map, read);
  if (const YamlNode* const value = map.require("size", "1 in SIDR 15")) {
    set_if(pipe.size, sizes_.read(*value, map.subject(), context_));
  }
  read_length_and_path(map, pipe);
  PipeReach reach;
  reach.pipe = map.subject();
  reach.bore = pipe.size.bore;
  reach.has_summit = has_summit(pipe.path);
  if (!pipe.path.empty()) {
    reach.reach = pipe.path.back().distance;
  } else if (Length() < pipe.length && !map.has("path")) {
    reach.reach = pipe.length;
  }
  read_parts(map, reach, pipe, problems);
  read_ends(map, read, pipe);
  read.sound = map.is_map() && read.joined && problems.count() == before;
  return read;
}

std::optional<std::size_t> PipeReader::read_end(const MapReader& map, std::string_view key) {
  const YamlNode* const value = map.require(key, "NAME of a place");
  const std::string* const name =
      value == nullptr ? nullptr : read_text(*value, map.part(key), context_.problems);
  if (name == nullptr) {
    return std::nullopt;
  }
  return names_.look_up(
      NameRegistry::Kind::Place, *name, value->position, map.part(key), context_.problems);
}

void PipeReader::check_end_kinds(const MapReader& map, const ReadPipe& read) {
  const auto place = [&](std::string_view key, std::size_t index) -> const Place* {
    const YamlNode* const value = map.find(key);
    const bool known = value != nullptr && value->kind == YamlNode::Kind::Text &&
                       names_.find(NameRegistry::Kind::Place, value->text).has_value();
    return known ? &farm_.places[index] : nullptr;
  };
  const Place* const from = place("from", read.pipe.from);
  const Place* const to = place("to", read.pipe.to);
  if (from != nullptr &&
      (std::holds_alternative<Trough>(from->data) || std::holds_alternative<Outlet>(from->data))) {
    context_.problems.add("wrong-end",
                          map.find("from")->position,
                          fmt::format("{} starts at {} '{}', from which nothing flows",
                                      map.subject().name,
                                      kind_word(*from),
                                      from->name),
                          "put a tee before it, and start the pipe at the tee");
  }
  if (to != nullptr && std::holds_alternative<Spring>(to->data)) {
    context_.problems.add(
        "wrong-end",
        map.find("to")->position,
        fmt::format("{} ends at spring '{}', where pipes only start", map.subject().name, to->name),
        "turn the pipe round, or end it at a tank");
  }
  if (from != nullptr && from == to) {
    context_.problems.add("wrong-end",
                          map.find("to")->position,
                          fmt::format("{} starts and ends at '{}'", map.subject().name, to->name),
                          "a pipe joins two places");
  }
}

void PipeReader::read_length_and_path(const MapReader& map, Pipe& pipe) {
  ProblemList& problems = context_.problems;
  if (map.is_map() && !map.has("length") && !map.has("path")) {
    problems.add("missing-key",
                 map.subject().position,
                 fmt::format("{} has neither length nor path", map.subject().name),
                 "add 'length: 150 ft', or a path from which the length follows");
    return;
  }
  std::optional<Length> length;
  if (const YamlNode* const value = map.find("length")) {
    length = read_within(*value, map.part("length"), parse_length, length_range, problems);
  }
  if (const YamlNode* const value = map.find("path")) {
    set_if(pipe.path, read_path(*value, map.subject(), context_));
  }
  set_if(pipe.length, length);
  if (pipe.path.empty()) {
    return;
  }
  const Length own = slope_length(pipe.path);
  if (!map.has("length")) {
    pipe.length = own;
    if (!length_range.holds(own)) {
      problems.add("out-of-range",
                   map.find("path")->position,
                   fmt::format("{} is {:.3g} m long", map.part("path"), in_metres(own)),
                   fmt::format("a pipe's length must be {}", length_range.told));
    }
  } else if (length && *length * (1.0 + path_excess) < own) {
    problems.add("path-longer-than-pipe",
                 map.find("length")->position,
                 fmt::format("{} is {:.2f} m, but its path alone is {:.2f} m long",
                             map.part("length"),
                             in_metres(*length),
                             in_metres(own)),
                 "a pipe is at least as long as its path: measure again, or leave out the length");
  }
}

void PipeReader::read_ends(const MapReader& map, const ReadPipe& read, Pipe& pipe) {
  ProblemList& problems = context_.problems;
  if (const YamlNode* const value = map.find("ends")) {
    pipe.ends = read_level(*value, map.part("ends"), problems);
  }
  if (const YamlNode* const value = map.find("enters")) {
    pipe.enters = read_word(*value, map.part("enters"), tank_entries, problems);
    const bool to_tank = !read.joined || std::holds_alternative<Tank>(farm_.places[pipe.to].data);
    if (!to_tank) {
      problems.add("wrong-end",
                   map.position_of("enters"),
                   fmt::format("{} enters no tank", map.subject().name),
                   "rim and bottom are ways into a tank");
    }
  }
}

}  // namespace leat::model
