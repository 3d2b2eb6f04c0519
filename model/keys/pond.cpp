#include "model/keys/pond.h"

#include <algorithm>

#include <fmt/format.h>

#include "model/keys/need_reader.h"
#include "model/keys/open_water.h"
#include "model/keys/place_keys.h"
#include "model/keys/pond_shape.h"

namespace leat::model {
namespace {

constexpr Range<Area> catchment_area_range{
    Area(), square_metres(1e9), "above 0 and at most 1000 km2", false};
constexpr Range<double> curve_number_range{0.0, 100.0, "above 0 and at most 100", false};

/// A rate such as "2 mm/day", or a word for the soil.
Seepage read_seepage(const YamlNode& node, const std::string& what, ProblemList& problems) {
  const std::string* const text = read_text(node, what, problems);
  if (text == nullptr) {
    return {};
  }
  if (std::find(soil_words.begin(), soil_words.end(), *text) != soil_words.end()) {
    return *text;
  }
  const bool is_number = !text->empty() && (text->front() == '-' || text->front() == '.' ||
                                            (text->front() >= '0' && text->front() <= '9'));
  if (is_number) {
    const auto rate = read_value(node, what, parse_depth_rate, problems);
    return rate ? Seepage(*rate) : Seepage();
  }
  report_unknown_word("unknown-word",
                      node.position,
                      fmt::format("{}: '{}' is neither a rate nor a soil", what, *text),
                      *text,
                      soil_words,
                      problems);
  return {};
}

bool read_seepage_key(const KeyValue& value, Pond& pond) {
  pond.seepage = read_seepage(value.node, value.what, value.problems());
  return !std::holds_alternative<std::monostate>(pond.seepage);
}

bool read_shape_key(const KeyValue& value, Pond& pond) {
  pond.shape = read_pond_shape(value.node, value.what, value.context);
  return !std::holds_alternative<std::monostate>(pond.shape);
}

bool read_stock_key(const KeyValue& value, Pond& pond) {
  pond.stock = HerdNeed{read_herd(value.node, value.map.subject(), value.context)};
  return true;
}

bool read_catchment(const KeyValue& value, Pond& pond) {
  const MapReader map(value.node,
                      Subject{value.what, value.node.position},
                      catchment_keys().names(),
                      value.problems());
  Catchment catchment;
  catchment.position = value.node.position;
  const SoundKeys sound = catchment_keys().read(map, catchment, value.context);
  if (sound.has("area") && sound.has("curve number")) {
    pond.catchment = catchment;
  }
  return pond.catchment.has_value();
}

std::vector<Key<Pond>> water_keys() {
  return {
      surface_key<Pond>({.examples = {"104 ft", "32 m"},
                         .told = "level of the water (in a season: on its first day, where the "
                                 "pond has a shape); may vary by month, or a record"}),
      intake_key<Pond>(
          {.examples = {"102 ft", "31 m"}, .told = "as for creeks", .if_absent = "as for creeks"}),
      key<Pond>("shape",
                own(Kind{.definition = "stage_areas", .keys = &dug_pond_keys()}, read_shape_key),
                {.sentence = "Levels with areas from the bottom up, such as [[77 m, 120 m2], [80 "
                             "m, 400 m2]], or {diameter: 30 m, sides: 3:1, depth: 8 ft}, or {top: "
                             "20 m x 10 m, sides: 2:1, depth: 2 m}.",
                 .told = "`[[level, area], ...]` from the bottom up, areas never falling, at most "
                         "100 km2; or a dug pond, see below",
                 .if_absent = "its level stays, whatever comes",
                 .is_aside = true}),
      key<Pond>("spills",
                level(&Pond::spills),
                {.sentence = "Level at which the pond runs over.",
                 .examples = {"105 ft", "32.5 m"},
                 .told = "level at which it runs over",
                 .if_absent = "the top of its shape"})};
}

std::vector<Key<Pond>> account_keys() {
  return {
      key<Pond>(
          "seepage",
          own(Kind{.definition = "depth_a_day", .words = {soil_words.begin(), soil_words.end()}},
              read_seepage_key),
          {.sentence = "What the ground takes: a depth a day, or a word for the soil.",
           .examples = {"2 mm/day", "clay"},
           .told = "mm/day, or the soil: sand, sandy loam, loam, clay loam, loamy clay, clay",
           .if_absent = "none"}),
      key<Pond>("catchment",
                own(Kind{.keys = &catchment_keys()}, read_catchment),
                {.sentence = "The ground that drains to the pond, such as {area: 2 ha, curve "
                             "number: 74}; needs rain by the day or rain days.",
                 .told = "land whose runoff reaches the pond, see below",
                 .if_absent = "none",
                 .is_aside = true}),
      key<Pond>(
          "stock drink here",
          own(Kind{"herd"}, read_stock_key),
          {.sentence =
               "Heads of each kind of stock that drink from the pond itself, such as {ewe: 30}.",
           .told = "a herd, see \"Herds\"",
           .if_absent = "none"})};
}

/// Whether the weather tells how rain falls by the day.
bool knows_rainy_days(const std::optional<Weather>& weather) {
  if (!weather) {
    return false;
  }
  const auto has_rain = [](const WeatherDay& day) { return day.rain.has_value(); };
  return (weather->rain && weather->rain_days) ||
         std::any_of(weather->days.begin(), weather->days.end(), has_rain);
}

}  // namespace

const Keys<Catchment>& catchment_keys() {
  static const Keys<Catchment> keys(
      {},
      {key<Catchment>("area",
                      quantity(&Catchment::area, catchment_area_range),
                      {.sentence = "Area of the ground that drains to the pond.",
                       .examples = {"2 ha", "5 acre"},
                       .required = "2 ha",
                       .told = "of the land, at most 1000 km2"}),
       key<Catchment>(
           "curve number",
           number(&Catchment::curve_number, curve_number_range),
           {.sentence = "How much of a rain runs off, 1 to 100: a table's value for soil and cover "
                        "(USDA TR-55).",
            .examples = {"74"},
            .required = "74",
            .told =
                "above 0 and at most 100: how much of a storm runs off that land (USDA TR-55)"})});
  return keys;
}

const Keys<Pond>& pond_keys() {
  static const Keys<Pond> keys(
      {"pond", "A pond."}, joined<Pond>({water_keys(), account_keys()}), {}, &place_keys());
  return keys;
}

Pond read_pond(const MapReader& map, LoadContext& context) {
  Pond pond;
  const SoundKeys sound = pond_keys().read(map, pond, context);
  check_intake(map, pond, sound, context.problems);
  return pond;
}

void check_catchments(const Farm& farm, ProblemList& problems) {
  if (knows_rainy_days(farm.weather)) {
    return;
  }
  for (const Place& place : farm.places) {
    const auto* const pond = std::get_if<Pond>(&place.data);
    if (pond != nullptr && pond->catchment) {
      problems.add(
          "catchment-needs-days",
          pond->catchment->position,
          fmt::format("catchment of pond '{}' has no rain by the day: what runs off depends "
                      "on each storm, not on the month's sum",
                      place.name),
          "give 'weather' daily rain in a CSV file, or 'rain' with 'rain days' by month");
    }
  }
}

}  // namespace leat::model
