#include "model/keys/measured_reader.h"

#include <array>
#include <utility>

#include <fmt/format.h>

#include "model/keys/instrument_words.h"
#include "model/keys/value_reader.h"

namespace leat::model {
namespace {

constexpr std::array<std::string_view, 3> kind_keys = {"flow", "pressure", "level"};

/// One value, or a list of repeats.
template <class Value>
void read_repeats(const YamlNode& node,
                  const std::string& what,
                  Parsed<Value> (*parse)(std::string_view),
                  Measurement& measured,
                  ProblemList& problems) {
  const auto read_one = [&](const YamlNode& item) {
    if (const std::optional<Value> value = read_value(item, what, parse, problems)) {
      measured.values.push_back(value->in_si());
      measured.bucket_s.push_back(
          measured.kind == Measurement::Kind::Flow ? filling_time_s(item.text) : 0.0);
      measured.given.push_back(item.text);
    }
  };
  if (node.kind != YamlNode::Kind::List) {
    read_one(node);
    return;
  }
  if (node.items.empty()) {
    problems.add("empty-list",
                 node.position,
                 fmt::format("{}: the list is empty", what),
                 "write what was read, or take the line out");
  }
  for (const YamlNode& item : node.items) {
    read_one(item);
  }
}

bool read_where(const MapReader& map,
                const NameRegistry& names,
                const Farm& farm,
                Measurement& measured,
                ProblemList& problems) {
  const YamlNode* const value = map.require("at", "NAME of a place");
  const std::string* const name =
      value == nullptr ? nullptr : read_text(*value, map.part("at"), problems);
  if (name == nullptr) {
    return false;
  }
  measured.position = value->position;
  measured.pipe = names.find(NameRegistry::Kind::Pipe, *name);
  if (measured.pipe) {
    measured.place = *measured.pipe < farm.pipes.size() ? farm.pipes[*measured.pipe].to : 0;
    return *measured.pipe < farm.pipes.size() && measured.place < farm.places.size();
  }
  const auto place =
      names.look_up(NameRegistry::Kind::Place, *name, value->position, map.part("at"), problems);
  measured.place = place.value_or(0);
  return place && *place < farm.places.size();
}

/// What the place cannot have: the flow of a tee, the pressure of open water.
void check_has(const Farm& farm, const Measurement& measured, ProblemList& problems) {
  const Place& place = farm.places[measured.place];
  if (measured.kind == Measurement::Kind::Flow && !measured.pipe &&
      std::holds_alternative<Tee>(place.data)) {
    problems.add("measures-nothing",
                 measured.position,
                 fmt::format("measured: tee '{}' has no flow of its own", place.name),
                 "name the pipe, or the trough, outlet or pond the water runs into");
  }
  if (measured.kind == Measurement::Kind::Pressure && is_open_water(place)) {
    problems.add(
        "measures-nothing",
        measured.position,
        fmt::format(
            "measured: {} '{}' is open water, which has no pressure", kind_word(place), place.name),
        "give its level, or the pressure at a tee");
  }
}

bool suits(Measurement::Kind kind, Instrument instrument) {
  switch (instrument) {
    case Instrument::Unsaid:
      return true;
    case Instrument::Bucket:
      return kind == Measurement::Kind::Flow;
    case Instrument::Gauge:
      return kind == Measurement::Kind::Pressure;
    case Instrument::HandLevel:
    case Instrument::BuildersLevel:
    case Instrument::WaterLevel:
    case Instrument::Phone:
      return kind == Measurement::Kind::Level;
  }
  return false;
}

void read_instrument(const MapReader& map, Measurement& measured, ProblemList& problems) {
  const YamlNode* const value = map.find("with");
  if (value == nullptr) {
    return;
  }
  const auto instrument = read_word(*value, map.part("with"), instrument_words, problems);
  set_if(measured.with, instrument);
  if (instrument && !suits(measured.kind, *instrument)) {
    const std::string_view kind = kind_keys[static_cast<std::size_t>(measured.kind)];
    problems.add("wrong-instrument",
                 value->position,
                 fmt::format("measured: a {} is not taken with a {}", kind, word_of(*instrument)),
                 "a flow is taken with a bucket, a pressure with a gauge, a level with a hand "
                 "level, builder's level, water level or phone");
  }
}

void read_one_measured(const YamlNode& node,
                       const NameRegistry& names,
                       Farm& farm,
                       ProblemList& problems) {
  static constexpr std::array<std::string_view, 6> keys = {
      "at", "flow", "pressure", "level", "on", "with"};
  const std::size_t before = problems.count();
  const MapReader map(node, Subject{"measured", node.position}, keys, problems);
  if (!map.is_map()) {
    return;
  }
  Measurement measured;
  const bool found = read_where(map, names, farm, measured, problems);
  int values = 0;
  for (std::size_t i = 0; i < kind_keys.size(); ++i) {
    if (map.has(kind_keys[i])) {
      ++values;
      measured.kind = static_cast<Measurement::Kind>(i);
    }
  }
  if (values != 1) {
    problems.add(values == 0 ? "missing-key" : "contradictory",
                 node.position,
                 "measured wants one of flow, pressure and level",
                 "write {at: house pond, flow: 1 gal in 16 s, on: 2026-08-14}");
  } else if (found) {
    check_has(farm, measured, problems);
  }
  if (const YamlNode* const value = map.find("flow")) {
    read_repeats(*value, map.part("flow"), parse_flow, measured, problems);
  }
  if (const YamlNode* const value = map.find("pressure")) {
    read_repeats(*value, map.part("pressure"), parse_pressure, measured, problems);
  }
  if (const YamlNode* const value = map.find("level")) {
    read_repeats(*value, map.part("level"), parse_elevation, measured, problems);
  }
  if (const YamlNode* const value = map.find("on")) {
    measured.on = read_date(*value, map.part("on"), problems);
  }
  read_instrument(map, measured, problems);
  if (problems.count() == before && !measured.values.empty()) {
    farm.measured.push_back(std::move(measured));
  }
}

}  // namespace

std::optional<Date> read_date(const YamlNode& node,
                              const std::string& what,
                              ProblemList& problems) {
  const std::string* const text = read_text(node, what, problems);
  if (text == nullptr) {
    return std::nullopt;
  }
  const auto date = parse_date(*text);
  if (!date) {
    problems.add("not-a-date",
                 node.position,
                 fmt::format("{}: '{}' is not a date", what, *text),
                 "write year-month-day, such as 2026-08-14");
  }
  return date;
}

std::optional<Instrument> read_survey_instrument(const YamlNode& node,
                                                 std::string_view what,
                                                 ProblemList& problems) {
  return read_word(node, what, survey_instrument_words, problems);
}

void read_measured(const YamlNode& node,
                   const NameRegistry& names,
                   Farm& farm,
                   LoadContext& context) {
  ProblemList& problems = context.problems;
  if (node.kind != YamlNode::Kind::List) {
    report_wrong_shape(node, "measured", "a list, each line starting with '- ', is", problems);
    return;
  }
  for (const YamlNode& item : node.items) {
    read_one_measured(item, names, farm, problems);
  }
}

double filling_time_s(std::string_view flow) {
  constexpr std::string_view word = " in ";
  const std::size_t at = flow.find(word);
  if (at == std::string_view::npos) {
    return 0.0;
  }
  const Parsed<Duration> time = parse_duration(flow.substr(at + word.size()));
  const auto* const found = std::get_if<Duration>(&time);
  return found == nullptr ? 0.0 : in_seconds(*found);
}

std::string_view word_of(Instrument instrument) {
  for (const Word<Instrument>& word : instrument_words) {
    if (word.second == instrument) {
      return word.first;
    }
  }
  return "";
}

}  // namespace leat::model
