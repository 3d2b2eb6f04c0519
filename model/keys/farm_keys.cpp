#include "model/keys/farm_keys.h"

#include "model/keys/creek.h"
#include "model/keys/instrument_words.h"
#include "model/keys/kinds.h"
#include "model/keys/measured.h"
#include "model/keys/outlet.h"
#include "model/keys/pipe.h"
#include "model/keys/pond.h"
#include "model/keys/pump_and_ram.h"
#include "model/keys/site.h"
#include "model/keys/spring.h"
#include "model/keys/tank.h"
#include "model/keys/tee.h"
#include "model/keys/trough.h"
#include "model/keys/weather.h"

namespace leat::model {
namespace {

constexpr std::array<Word<UnitSystem>, 2> unit_systems = {
    {{"US", UnitSystem::Us}, {"metric", UnitSystem::Metric}}};

std::vector<Key<Farm>> heading_keys() {
  return {
      key<Farm>("farm",
                text(&Farm::name),
                {.sentence = "Name of the farm, as it stands over every answer.",
                 .examples = {"Alder Hollow"},
                 .required = "NAME of the farm",
                 .told = "name of the farm"}),
      key<Farm>("show",
                word(&Farm::show, unit_systems),
                {.sentence = "Units of what is printed: US or metric. Metric unless given; JSON "
                             "and CSV are always SI.",
                 .told = "US or metric: the units of printed results; JSON and CSV are always SI",
                 .if_absent = "metric"}),
      key<Farm>("datum",
                text(&Farm::datum),
                {.sentence = "What levels are counted from, in words.",
                 .examples = {"barn slab corner = 100 ft"},
                 .told = "what levels are counted from, in words",
                 .if_absent = "-"}),
      key<Farm>("site",
                Described{Kind{.keys = &site_keys()}},
                {.sentence = "Air and water at the farm, such as {altitude: 1350 ft, water: 55 F}.",
                 .told = "where the farm lies, see \"Site\"",
                 .if_absent = "0 m, 15 C"})};
}

std::vector<Key<Farm>> place_section_keys() {
  return {
      key<Farm>(
          "springs",
          Described{Kind{.keys = &spring_keys(), .is_by_name = true}},
          {.sentence = "Springs by name, such as upper: {overflow: 131.5 ft, yield: 2.5 gal/min}.",
           .told = "places by name, a section below for each",
           .if_absent = "-"}),
      key<Farm>("creeks",
                Described{Kind{.keys = &creek_keys(), .is_by_name = true}},
                {.sentence = "Creeks, and pools in them, by name, such as ford pool: {surface: 118 "
                             "ft, spare: 12 gal/min}."}),
      key<Farm>("ponds",
                Described{Kind{.keys = &pond_keys(), .is_by_name = true}},
                {.sentence = "Ponds by name, such as house pond: {surface: 104 ft}."}),
      key<Farm>(
          "tanks",
          Described{Kind{.keys = &tank_keys(), .is_by_name = true}},
          {.sentence =
               "Tanks by name, such as hill tank: {floor: 120 ft, full: 5 ft, diameter: 8 ft}."}),
      key<Farm>("troughs",
                Described{Kind{.keys = &trough_keys(), .is_by_name = true}},
                {.sentence = "Troughs with a float valve by name, such as north: {float: 108 ft, "
                             "need: 200 gal/day, within: 8 h}."}),
      key<Farm>(
          "outlets",
          Described{Kind{.keys = &outlet_keys(), .is_by_name = true}},
          {.sentence = "Open ends by name, a tap or a hose, such as garden: {level: 110 ft}."}),
      key<Farm>(
          "tees",
          Described{Kind{.definition = "level", .keys = &tee_keys(), .is_by_name = true}},
          {.sentence =
               "Tees, where pipes meet, by name with their level, such as gate tee: 112 ft."})};
}

std::vector<Key<Farm>> line_section_keys() {
  return {key<Farm>("pipes",
                    Described{Kind{.keys = &pipe_keys(), .is_by_name = true}},
                    {.sentence = "Pipes by name, such as down: {from: hill tank, to: gate tee, "
                                 "size: 1 in SIDR 15, length: 150 ft}.",
                     .required = "{NAME: {from: ..., to: ..., size: ..., length: ...}}",
                     .told = "pipes by name"}),
          key<Farm>("pumps",
                    Described{Kind{.keys = &pump_keys(), .is_by_name = true}},
                    {.sentence = "Pumps by name, such as lift: {from: pond, to: tank, curve: [[0 "
                                 "L/min, 12 m], [40 L/min, 8 m]]}.",
                     .told = "what lifts water, by name",
                     .if_absent = "-"}),
          key<Farm>("rams",
                    Described{Kind{.keys = &ram_keys(), .is_by_name = true}},
                    {.sentence = "Hydraulic rams by name, such as thump: {drive: drive pipe, "
                                 "delivery: rising pipe}."})};
}

std::vector<Key<Farm>> season_and_money_keys() {
  return {
      key<Farm>("measured",
                Described{Kind{.keys = &measured_keys(), .is_list = true}},
                {.sentence = "What was measured, where and when, for leat fit, such as - {at: "
                             "garden, flow: 1 gal in 16 s, on: 2026-08-14}.",
                 .told = "what was found with bucket, gauge and level, see \"Measured\"",
                 .if_absent = "-"}),
      key<Farm>(
          "weather",
          Described{Kind{.or_csv = true, .keys = &weather_keys()}},
          {.sentence = "Weather by month, such as {rain: 40 mm, evaporation: 4 mm/day}, or the "
                       "name of a CSV file of days.",
           .told = "rain, sun, warmth: for seasons and for what a herd drinks, see \"Weather\"",
           .if_absent = "-"}),
      key<Farm>(
          "breaks",
          Described{Kind{.definition = "date", .is_by_name = true}},
          {.sentence =
               "Floats that stay open from a day on, for a season, such as north: 2026-08-10.",
           .told = "floats that stay open from a day on, for seasons: `{north: 2026-08-10}`; a "
                   "trough, or a tank with a float inlet",
           .if_absent = "-"}),
      key<Farm>("prices",
                Described{Kind{"prices"}},
                {.sentence = "Money without its sign, for a length of a size and for a piece of a "
                             "fitting, such as {1 in SIDR 15: 0.62 per ft, elbow: 2.40}.",
                 .told = "for `leat size` and `leat improve`, see \"Prices and stock\"",
                 .if_absent = "-"}),
      key<Farm>("stock",
                Described{Kind{"stock"}},
                {.sentence = "Lengths of pipe in store by size, such as 1 in SIDR 15: 200 ft."})};
}

std::vector<Key<Farm>> origin_keys() {
  return {
      key<Farm>(
          "surveyed with",
          word(&Farm::surveyed_with, survey_instrument_words),
          {.sentence = "What the farm's levels were taken with; how wrong they may be follows from "
                       "it. A hand level unless given.",
           .told = "hand level, builder's level, water level or phone: what levels were taken with",
           .if_absent = "hand level"}),
      key<Farm>("surveyed by",
                text(&Farm::surveyed_by),
                {.sentence = "Who took the levels, in words.",
                 .examples = {"the two of us"},
                 .told = "words",
                 .if_absent = "-"}),
      key<Farm>("based on",
                Described{Kind{"text"}},
                {.sentence = "The farm file that this one changes, found from this file's folder.",
                 .examples = {"fell-side.yaml"},
                 .told = "another farm file that this one changes, see \"Variants\"",
                 .if_absent = "-"}),
      key<Farm>("remove",
                Described{Kind{.definition = "names", .is_list = true}},
                {.sentence = "Places, pipes, pumps and rams of the base that this variant does "
                             "without, such as [top, to top].",
                 .told = "names of what the base has and this farm has not",
                 .if_absent = "-"})};
}

}  // namespace

const Keys<Farm>& farm_keys() {
  static const Keys<Farm> keys({"", "A gravity water farm; model/FORMAT.md explains every key."},
                               joined<Farm>({heading_keys(),
                                             place_section_keys(),
                                             line_section_keys(),
                                             season_and_money_keys(),
                                             origin_keys()}));
  return keys;
}

const KeyRow* key_row(std::span<const std::string> path) {
  const KeyTable* table = &farm_keys();
  const KeyRow* row = nullptr;
  for (std::size_t step = 0; step < path.size(); ++step) {
    row = table == nullptr ? nullptr : table->find(path[step]);
    if (row == nullptr) {
      return nullptr;
    }
    if (row->kind.is_by_name || row->kind.is_list) {
      ++step;  // a name, or the number of an item
      if (step + 1 >= path.size()) {
        return step < path.size() ? nullptr : row;
      }
    }
    table = row->kind.keys;
  }
  return row;
}

}  // namespace leat::model
