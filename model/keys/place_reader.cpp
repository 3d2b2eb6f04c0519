#include "model/keys/place_reader.h"

#include <array>

#include <fmt/format.h>

#include "model/keys/hour_keys.h"
#include "model/keys/map_position_reader.h"
#include "model/keys/measured_reader.h"
#include "model/keys/month_map_reader.h"
#include "model/keys/need_reader.h"
#include "model/keys/open_water_reader.h"

namespace leat::model {
namespace {

struct Section {
  std::string_view key;
  PlaceKind kind;
  std::string_view word;
};

constexpr std::array<Section, 7> sections = {{
    {"springs", PlaceKind::Spring, "spring"},
    {"creeks", PlaceKind::Creek, "creek"},
    {"ponds", PlaceKind::Pond, "pond"},
    {"tanks", PlaceKind::Tank, "tank"},
    {"troughs", PlaceKind::Trough, "trough"},
    {"outlets", PlaceKind::Outlet, "outlet"},
    {"tees", PlaceKind::Tee, "tee"},
}};

using Keys = std::span<const std::string_view>;

/// What a float valve passes at a pressure. Nothing, or at no pressure, is no float valve.
void read_passes(const YamlNode& node,
                 const std::string& what,
                 Trough& trough,
                 ProblemList& problems) {
  const auto passes = read_value(node, what, parse_flow_at_pressure, problems);
  if (!passes) {
    return;
  }
  if (passes->first < litres_per_second(0.001 / 60.0) || passes->second < pascals(100.0)) {
    QuantityProblem problem;
    problem.code = "out-of-range";
    problem.text = "'" + node.text + "' is out of range";
    problem.hint = "it must be at least 0.001 L/min at 0.1 kPa";
    report_quantity(node, what, problem, problems);
    return;
  }
  trough.passes = *passes;
}

void read_float_valve(const MapReader& map, Trough& trough, ProblemList& problems) {
  if (map.has("seat") && map.has("passes")) {
    problems.add("contradictory",
                 map.position_of("passes"),
                 fmt::format("{} has both a seat and what it passes", map.subject().name),
                 "keep one: each follows from the other");
  }
  if (const YamlNode* const value = map.find("seat")) {
    trough.seat = read_within(*value, map.part("seat"), parse_length, bore_range, problems);
  }
  if (const YamlNode* const value = map.find("passes")) {
    read_passes(*value, map.part("passes"), trough, problems);
  }
  if (const YamlNode* const value = map.find("cd")) {
    set_if(
        trough.discharge_coefficient,
        read_within(*value, map.part("cd"), parse_number, discharge_coefficient_range, problems));
  }
  if (const YamlNode* const value = map.find("closes against")) {
    trough.closes_against =
        read_value(*value, map.part("closes against"), parse_pressure, problems);
  }
  if (const YamlNode* const value = map.find("closes in")) {
    const Range<Duration> range{Duration(), hours(1.0), "above 0 and at most 1 h", false};
    set_if(trough.closes_in,
           read_within(*value, map.part("closes in"), parse_duration, range, problems));
  }
}

Trough read_trough(const YamlNode& node, const Subject& subject, Reading& reading) {
  static constexpr std::array<std::string_view, 14> keys = {"float",
                                                            "need",
                                                            "herd",
                                                            "within",
                                                            "drinks",
                                                            "seat",
                                                            "passes",
                                                            "cd",
                                                            "closes against",
                                                            "closes in",
                                                            "holds",
                                                            "enters",
                                                            "map",
                                                            "surveyed with"};
  static constexpr std::array<Word<TroughEntry>, 2> entries = {
      {{"above", TroughEntry::AboveWater}, {"under water", TroughEntry::UnderWater}}};
  ProblemList& problems = reading.problems;
  const MapReader map(node, subject, Keys(keys), problems);
  Trough trough;
  if (const YamlNode* const value = map.require("float", "108 ft")) {
    set_if(trough.float_level, read_level(*value, map.part("float"), problems));
  }
  trough.need = read_need(map, reading);
  if (const YamlNode* const value = map.find("within")) {
    const Range<Duration> range{Duration(), hours(24.0), "above 0 and at most 24 h", false};
    set_if(trough.within, read_within(*value, map.part("within"), parse_duration, range, problems));
  }
  if (const YamlNode* const value = map.find("drinks")) {
    trough.drinks = read_run_times(*value, map.part("drinks"), HoursToo::No, problems).ranges;
  }
  read_float_valve(map, trough, problems);
  if (const YamlNode* const value = map.find("holds")) {
    trough.holds = read_value(*value, map.part("holds"), parse_volume, problems);
  }
  if (const YamlNode* const value = map.find("enters")) {
    set_if(trough.enters, read_word(*value, map.part("enters"), entries, problems));
  }
  return trough;
}

Outlet read_outlet(const YamlNode& node, const Subject& subject, Reading& reading) {
  static constexpr std::array<std::string_view, 7> keys = {
      "level", "wished", "opening", "cd", "household", "map", "surveyed with"};
  ProblemList& problems = reading.problems;
  const MapReader map(node, subject, Keys(keys), problems);
  Outlet outlet;
  if (const YamlNode* const value = map.require("level", "110 ft")) {
    set_if(outlet.level, read_level(*value, map.part("level"), problems));
  }
  if (const YamlNode* const value = map.find("wished")) {
    outlet.wished = read_months(*value, map.part("wished"), parse_flow, GapRule::Higher, reading);
  }
  if (const YamlNode* const value = map.find("opening")) {
    outlet.opening = read_within(*value, map.part("opening"), parse_length, bore_range, problems);
  }
  if (const YamlNode* const value = map.find("cd")) {
    set_if(
        outlet.discharge_coefficient,
        read_within(*value, map.part("cd"), parse_number, discharge_coefficient_range, problems));
  }
  if (const YamlNode* const value = map.find("household")) {
    set_if(outlet.household, read_truth(*value, map.part("household"), problems));
  }
  return outlet;
}

Tee read_tee(const YamlNode& node, const Subject& subject, Reading& reading) {
  Tee tee;
  if (node.kind == YamlNode::Kind::Text) {
    set_if(tee.elevation, read_level(node, subject.part("elevation"), reading.problems));
    return tee;
  }
  static constexpr std::array<std::string_view, 4> keys = {
      "elevation", "leaks", "map", "surveyed with"};
  const MapReader map(node, subject, Keys(keys), reading.problems);
  if (const YamlNode* const value = map.require("elevation", "112 ft")) {
    set_if(tee.elevation, read_level(*value, map.part("elevation"), reading.problems));
  }
  if (const YamlNode* const value = map.find("leaks")) {
    set_if(tee.leaks, read_truth(*value, map.part("leaks"), reading.problems));
  }
  return tee;
}

PlaceData read_data(PlaceKind kind,
                    const YamlNode& node,
                    const Subject& subject,
                    Reading& reading) {
  switch (kind) {
    case PlaceKind::Spring:
      return read_spring(node, subject, reading);
    case PlaceKind::Creek:
      return read_creek(node, subject, reading);
    case PlaceKind::Pond:
      return read_pond(node, subject, reading);
    case PlaceKind::Tank:
      return read_tank(node, subject, reading);
    case PlaceKind::Trough:
      return read_trough(node, subject, reading);
    case PlaceKind::Outlet:
      return read_outlet(node, subject, reading);
    case PlaceKind::Tee:
      return read_tee(node, subject, reading);
  }
  return Tee{};
}

}  // namespace

std::optional<PlaceKind> place_kind_of_section(std::string_view section) {
  for (const Section& known : sections) {
    if (known.key == section) {
      return known.kind;
    }
  }
  return std::nullopt;
}

Place read_place(PlaceKind kind, const YamlEntry& entry, Reading& reading) {
  const std::string_view word = sections[static_cast<std::size_t>(kind)].word;
  const Subject subject{fmt::format("{} '{}'", word, entry.key), entry.position};
  Place place;
  place.name = entry.key;
  place.position = entry.position;
  place.data = read_data(kind, entry.value, subject, reading);
  for (const YamlEntry& key : entry.value.entries) {
    if (key.key == "map" && key.value.kind != YamlNode::Kind::Nothing) {
      place.map = read_map_position(key.value, subject.part("map"), reading.problems);
    }
    if (key.key == "surveyed with" && key.value.kind != YamlNode::Kind::Nothing) {
      set_if(place.surveyed_with,
             read_survey_instrument(key.value, subject.part(key.key), reading.problems));
    }
  }
  return place;
}

}  // namespace leat::model
