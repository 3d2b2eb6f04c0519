#include "model/keys/trough.h"

#include <fmt/format.h>

#include "model/keys/hour_keys.h"
#include "model/keys/kinds.h"
#include "model/keys/need_reader.h"
#include "model/keys/place_keys.h"

namespace leat::model {
namespace {

constexpr Range<Duration> within_range{Duration(), hours(24.0), "above 0 and at most 24 h", false};
constexpr Range<Duration> closing_range{Duration(), hours(1.0), "above 0 and at most 1 h", false};

constexpr std::array<Word<TroughEntry>, 2> entries = {
    {{"above", TroughEntry::AboveWater}, {"under water", TroughEntry::UnderWater}}};

bool read_need_key(const KeyValue& value, Trough& trough) {
  trough.need = read_need(value.node, value.what, value.context);
  return !std::holds_alternative<NoNeed>(trough.need);
}

bool read_herd_key(const KeyValue& value, Trough& trough) {
  trough.need = HerdNeed{read_herd(value.node, value.map.subject(), value.context)};
  return true;
}

bool read_drinks(const KeyValue& value, Trough& trough) {
  trough.drinks = read_run_times(value.node, value.what, HoursToo::No, value.problems()).ranges;
  return !trough.drinks.empty();
}

/// What a float valve passes at a pressure. Nothing, or at no pressure, is no float valve.
bool read_passes(const KeyValue& value, Trough& trough) {
  const auto passes = read_value(value.node, value.what, parse_flow_at_pressure, value.problems());
  if (!passes) {
    return false;
  }
  if (passes->first < litres_per_second(0.001 / 60.0) || passes->second < pascals(100.0)) {
    QuantityProblem problem;
    problem.code = "out-of-range";
    problem.text = "'" + value.node.text + "' is out of range";
    problem.hint = "it must be at least 0.001 L/min at 0.1 kPa";
    report_quantity(value.node, value.what, problem, value.problems());
    return false;
  }
  trough.passes = *passes;
  return true;
}

Key<Trough> float_key() {
  return key<Trough>("float",
                     level(&Trough::float_level),
                     {.sentence = "Level of the float valve's outlet.",
                      .examples = {"108 ft", "33 m"},
                      .required = "108 ft",
                      .told = "level of the float valve's outlet"});
}

std::vector<Key<Trough>> need_keys() {
  return {key<Trough>("need",
                      own(Kind{.definition = "flow", .by_month = true}, read_need_key),
                      {.sentence = "What is needed: a rate, or an amount a day that is drunk "
                                   "within some hours; may vary by month. Not beside herd.",
                       .examples = {"350 gal/day", "2 L/min"},
                       .told = "a rate (`2 gal/min`), or an amount a day (`350 gal/day`); may vary "
                               "by month, but not partly the one and partly the other",
                       .if_absent = "no need: the float takes what comes, and the answer says so"}),
          key<Trough>("herd",
                      own(Kind{"herd"}, read_herd_key),
                      {.sentence = "Heads of each kind of stock that drink here, such as {dry beef "
                                   "cow: 24}. Not beside need. leat herd lists the kinds.",
                       .told = "see \"Herds\"; not beside a need"}),
          key<Trough>("within",
                      quantity(&Trough::within, within_range),
                      {.sentence = "Hours in which the day's amount is drunk; 24 h unless given.",
                       .examples = {"6 h"},
                       .told = "time in which the day's amount is taken, above 0 and at most 24 h: "
                               "rate = amount / within. An error beside a rate",
                       .if_absent = "24 h"}),
          key<Trough>("drinks",
                      own(Kind{"clock_ranges"}, read_drinks),
                      {.sentence = "Hours of the clock at which stock drink, for a season.",
                       .examples = {"6:00-9:00"},
                       .told = "hours of the clock in which stock drink, for the season",
                       .if_absent = "`within`, centred on noon"})};
}

std::vector<Key<Trough>> orifice_keys() {
  return {
      key<Trough>("seat",
                  quantity(&Trough::seat, bore_range),
                  {.sentence = "Bore of the float valve's seat. Not beside passes.",
                   .examples = {"6 mm", "1/4 in"},
                   .told = "bore of the float valve's seat, at most 3 m",
                   .if_absent = "it takes what the pipe brings"}),
      key<Trough>(
          "passes",
          own(Kind{"flow_at_pressure"}, read_passes),
          {.sentence =
               "What the float valve passes at a pressure, as the maker says. Not beside seat.",
           .examples = {"9 gal/min at 40 psi"},
           .told = "instead of a seat what the valve passes: `9 gal/min at 40 psi` (at least 0.001 "
                   "L/min at 0.1 kPa)"}),
      key<Trough>("cd",
                  number(&Trough::discharge_coefficient, discharge_coefficient_range),
                  {.sentence = "Discharge coefficient of the seat, 0.01 to 1; 0.6 unless given.",
                   .examples = {"0.6"},
                   .told = "discharge coefficient of the seat, 0.01 to 1",
                   .if_absent = "0.60",
                   .is_aside = true})};
}

std::vector<Key<Trough>> float_valve_keys() {
  return {
      key<Trough>("closes against",
                  quantity<Pressure>(&Trough::closes_against),
                  {.sentence = "Highest pressure against which the float still shuts.",
                   .examples = {"60 psi", "4 bar"},
                   .told = "pressure against which the float still shuts: where a full line puts "
                           "more on it, `prime` has a valve fitted",
                   .if_absent = "it is taken to hold",
                   .is_aside = true}),
      key<Trough>(
          "closes in",
          quantity(&Trough::closes_in, closing_range),
          {.sentence = "Time in which the float shuts, for the knock it gives; 5 s unless given.",
           .examples = {"5 s"},
           .told = "time it takes to shut, above 0 and at most 1 h",
           .if_absent = "5 s",
           .is_aside = true}),
      key<Trough>("holds",
                  quantity<Volume>(&Trough::holds),
                  {.sentence = "What the full trough holds.",
                   .examples = {"150 gal", "600 L"},
                   .told = "volume: what a season may draw on",
                   .if_absent = "nothing"}),
      key<Trough>(
          "enters",
          word(&Trough::enters, entries),
          {.sentence = "Whether water enters above the surface, unless given, or under water.",
           .told = "above or under water",
           .if_absent = "above"})};
}

void check_need(const MapReader& map, const Trough& trough, ProblemList& problems) {
  if (map.has("need") && map.has("herd")) {
    problems.add("need-and-herd",
                 map.position_of("herd"),
                 fmt::format("{} has both a need and a herd", map.subject().name),
                 "keep the one you are surer of");
  }
  if (std::holds_alternative<RateNeed>(trough.need) && map.has("within")) {
    problems.add("within-beside-rate",
                 map.position_of("within"),
                 fmt::format("{} has hours, but its need is a rate already", map.subject().name),
                 "write the need per day, such as 350 gal/day, or take out 'within'");
  }
}

}  // namespace

const Keys<Trough>& trough_keys() {
  static const Keys<Trough> keys(
      {"trough", "A stock trough with a float valve."},
      joined<Trough>({{float_key()}, need_keys(), orifice_keys(), float_valve_keys()}),
      {{KeyGroup::Stand::AtMostOne, {"need", "herd"}},
       {KeyGroup::Stand::AtMostOne, {"seat", "passes"}}},
      &place_keys());
  return keys;
}

Trough read_trough(const MapReader& map, LoadContext& context) {
  Trough trough;
  trough_keys().read(map, trough, context);
  check_need(map, trough, context.problems);
  if (map.has("seat") && map.has("passes")) {
    context.problems.add("contradictory",
                         map.position_of("passes"),
                         fmt::format("{} has both a seat and what it passes", map.subject().name),
                         "keep one: each follows from the other");
  }
  return trough;
}

}  // namespace leat::model
