#include "model/keys/measured.h"

#include <array>
#include <utility>

#include <fmt/format.h>

#include "model/keys/instrument_words.h"
#include "model/keys/kinds.h"

namespace leat::model {
namespace {

constexpr std::array<std::string_view, 3> kind_keys = {"flow", "pressure", "level"};

/// One value, or a list of repeats.
template <class Quantity>
bool read_repeats(const KeyValue& value, MeasuredDraft& draft) {
  Measurement& measured = draft.measured;
  const auto read_one = [&](const YamlNode& item) {
    if (const std::optional<Quantity> found =
            read_value(item, value.what, Written<Quantity>::parse, value.problems())) {
      measured.values.push_back(found->in_si());
      measured.bucket_s.push_back(
          measured.kind == Measurement::Kind::Flow ? filling_time_s(item.text) : 0.0);
      measured.given.push_back(item.text);
    }
  };
  if (value.node.kind != YamlNode::Kind::List) {
    read_one(value.node);
    return !measured.values.empty();
  }
  if (value.node.items.empty()) {
    value.problems().add("empty-list",
                         value.node.position,
                         fmt::format("{}: the list is empty", value.what),
                         "write what was read, or take the line out");
  }
  for (const YamlNode& item : value.node.items) {
    read_one(item);
  }
  return !measured.values.empty();
}

template <class Quantity>
auto repeats() {
  return own(Kind{.definition = Written<Quantity>::definition, .may_repeat = true},
             read_repeats<Quantity>);
}

/// A place, or a pipe, which is measured where it ends.
bool read_where(const KeyValue& value, MeasuredDraft& draft) {
  const std::string* const name = read_text(value.node, value.what, value.problems());
  if (name == nullptr) {
    return false;
  }
  Measurement& measured = draft.measured;
  const Farm& farm = draft.farm;
  measured.position = value.node.position;
  measured.pipe = draft.names.find(NameRegistry::Kind::Pipe, *name);
  if (measured.pipe) {
    measured.place = *measured.pipe < farm.pipes.size() ? farm.pipes[*measured.pipe].to : 0;
    return *measured.pipe < farm.pipes.size() && measured.place < farm.places.size();
  }
  const auto place = draft.names.look_up(
      NameRegistry::Kind::Place, *name, value.node.position, value.what, value.problems());
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

bool read_instrument(const KeyValue& value, MeasuredDraft& draft) {
  Measurement& measured = draft.measured;
  const auto instrument = read_word(value.node, value.what, instrument_words, value.problems());
  set_if(measured.with, instrument);
  if (instrument && !suits(measured.kind, *instrument)) {
    const std::string_view kind = kind_keys[static_cast<std::size_t>(measured.kind)];
    value.problems().add(
        "wrong-instrument",
        value.node.position,
        fmt::format("measured: a {} is not taken with a {}", kind, word_of(*instrument)),
        "a flow is taken with a bucket, a pressure with a gauge, a level with a hand "
        "level, builder's level, water level or phone");
    return false;
  }
  return instrument.has_value();
}

bool read_day(const KeyValue& value, MeasuredDraft& draft) {
  draft.measured.on = read_date(value.node, value.what, value.problems());
  return draft.measured.on.has_value();
}

Kind instrument_kind() {
  Kind kind;
  for (const Word<Instrument>& word : instrument_words) {
    kind.words.push_back(word.first);
  }
  return kind;
}

/// The instruments that each kind of value is taken with.
std::vector<WordsBeside> suited_words() {
  std::vector<WordsBeside> suited;
  for (std::size_t kind = 0; kind < kind_keys.size(); ++kind) {
    WordsBeside& words = suited.emplace_back(WordsBeside{kind_keys[kind], "with", {}});
    for (const auto& [word, instrument] : instrument_words) {
      if (suits(static_cast<Measurement::Kind>(kind), instrument)) {
        words.words.push_back(word);
      }
    }
  }
  return suited;
}

/// Which kinds of value a measurement has; the last of them is its own.
int count_kinds(const MapReader& map, Measurement& measured) {
  int kinds = 0;
  for (std::size_t i = 0; i < kind_keys.size(); ++i) {
    if (map.has(kind_keys[i])) {
      ++kinds;
      measured.kind = static_cast<Measurement::Kind>(i);
    }
  }
  return kinds;
}

void read_one_measured(const YamlNode& node,
                       const NameRegistry& names,
                       Farm& farm,
                       LoadContext& context) {
  ProblemList& problems = context.problems;
  const std::size_t before = problems.count();
  const MapReader map(node, Subject{"measured", node.position}, measured_keys().names(), problems);
  if (!map.is_map()) {
    return;
  }
  MeasuredDraft draft{{}, farm, names};
  const int kinds = count_kinds(map, draft.measured);
  const SoundKeys sound = measured_keys().read(map, draft, context);
  if (kinds != 1) {
    problems.add(kinds == 0 ? "missing-key" : "contradictory",
                 node.position,
                 "measured wants one of flow, pressure and level",
                 "write {at: house pond, flow: 1 gal in 16 s, on: 2026-08-14}");
  } else if (sound.has("at")) {
    check_has(farm, draft.measured, problems);
  }
  if (problems.count() == before && !draft.measured.values.empty()) {
    farm.measured.push_back(std::move(draft.measured));
  }
}

}  // namespace

const Keys<MeasuredDraft>& measured_keys() {
  static const Keys<MeasuredDraft> keys(
      {"measured", "Something measured."},
      {key<MeasuredDraft>(
           "at",
           own(Kind{"name"}, read_where),
           {.sentence = "Name of the place or pipe where it was measured, such as garden.",
            .required = "NAME of a place",
            .told = "name of a place or pipe"}),
       key<MeasuredDraft>("flow",
                          repeats<Flow>(),
                          {.sentence = "The flow, one reading or a list of repeats. Say how it was "
                                       "filled and the error is known.",
                           .examples = {"1 gal in 16 s", "10 L/min"},
                           .told = "what runs out at an outlet, trough or pond end, or through a "
                                   "pipe; at a spring all that it gives. Written as VOLUME in TIME "
                                   "it keeps the filling time, from which its error follows"}),
       key<MeasuredDraft>(
           "pressure",
           repeats<Pressure>(),
           {.sentence = "The gauge pressure while water runs, one reading or a list of repeats.",
            .examples = {"12 psi", "1.2 bar"},
            .told = "gauge, while the water runs, at a tee, trough or outlet; of a pipe: where it "
                    "ends"}),
       key<MeasuredDraft>("level",
                          repeats<Elevation>(),
                          {.sentence = "The level of the water, one reading or a list of repeats.",
                           .examples = {"104 ft", "32 m"},
                           .told = "of open water, or of the place itself, surveyed once more"}),
       key<MeasuredDraft>("on",
                          own(Kind{"date"}, read_day),
                          {.sentence = "The day it was measured.",
                           .examples = {"2026-08-14"},
                           .told = "the day, 2026-08-14: the farm is computed for its month",
                           .if_absent = "the driest month"}),
       key<MeasuredDraft>("with",
                          own(instrument_kind(), read_instrument),
                          {.sentence = "What it was measured with: a bucket for flows, a gauge for "
                                       "pressures, one of the others for levels.",
                           .told = "flow: bucket; pressure: gauge; level: hand level, builder's "
                                   "level, water level, phone",
                           .if_absent = "bucket, gauge, hand level"})},
      {{KeyGroup::Stand::ExactlyOne, {"flow", "pressure", "level"}}},
      nullptr,
      suited_words());
  return keys;
}

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
    read_one_measured(item, names, farm, context);
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
