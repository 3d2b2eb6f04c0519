#include "render/pictures/schematic/place_label.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "render/pictures/schematic/attention.h"
#include "render/words/figure_text.h"

namespace leat::render {
namespace {

FactLine kind_and_level(const model::Place& place,
                        const solver::PlaceAnswer& seen,
                        model::UnitSystem units) {
  return {model::kind_word(place),
          (model::is_tank(place) ? "floor " : "") + level_figure(seen.elevation_m, units)};
}

/// Where the water stands, when not at the place's own level.
std::string water_level(const solver::PlaceAnswer& seen, model::UnitSystem units) {
  const bool stands_elsewhere = seen.level_m && std::abs(*seen.level_m - seen.elevation_m) > 0.005;
  return stands_elsewhere ? "water at " + level_figure(*seen.level_m, units) : "";
}

/// Water that pipes bring to a place and take from it [m3/s], neither below zero.
struct PipedWater {
  double in = 0.0;
  double out = 0.0;
};

PipedWater piped_water(const model::Farm& farm,
                       const solver::SteadyAnswer& answer,
                       std::size_t place) {
  PipedWater water;
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    const double flow = answer.pipes[i].flow_m3_s;
    double comes = 0.0;
    comes += farm.pipes[i].to == place ? flow : 0.0;
    comes -= farm.pipes[i].from == place ? flow : 0.0;
    water.in += std::max(0.0, comes);
    water.out += std::max(0.0, -comes);
  }
  return water;
}

/// What comes to water that stands open and what goes: a tank on the way to troughs does both.
FactLine open_water_facts(const model::Place& place,
                          const solver::PlaceAnswer& seen,
                          const PipedWater& piped,
                          model::UnitSystem units) {
  const bool comes = piped.in > solver::still_flow_m3_s;
  const bool goes = piped.out > solver::still_flow_m3_s;
  if (comes && goes) {
    if (std::abs(piped.in - piped.out) < 1e-3 * piped.in) {
      return {flow_figure(piped.in, units) + " runs\u00A0through"};
    }
    return {flow_figure(piped.in, units) + "\u00A0in", flow_figure(piped.out, units) + "\u00A0out"};
  }
  if (seen.delivered_m3_s < -solver::still_flow_m3_s) {
    return {"gives " + flow_figure(-seen.delivered_m3_s, units)};
  }
  if (seen.delivered_m3_s > solver::still_flow_m3_s) {
    return {"gets " + flow_figure(seen.delivered_m3_s, units)};
  }
  return {model::is_source(place) ? "gives nothing" : "nothing in or out"};
}

/// What the water does there: gets, gives, runs through. Empty for a tee.
FactLine supply_facts(const model::Place& place,
                      const solver::PlaceAnswer& seen,
                      const PipedWater& piped,
                      model::UnitSystem units) {
  if (model::is_tee(place)) {
    return {};
  }
  if (seen.need_m3_s) {
    return {fmt::format("gets {} of\u00A0{}",
                        flow_number(seen.delivered_m3_s, units),
                        flow_figure(*seen.need_m3_s, units))};
  }
  if (model::is_open_water(place)) {
    return open_water_facts(place, seen, piped, units);
  }
  const bool runs = seen.delivered_m3_s > solver::still_flow_m3_s;
  return {runs ? "gets " + flow_figure(seen.delivered_m3_s, units) : "gets nothing"};
}

std::string spill_line(const solver::PlaceAnswer& seen, model::UnitSystem units) {
  return seen.spill_m3_s && *seen.spill_m3_s > solver::still_flow_m3_s
             ? "spills " + flow_figure(*seen.spill_m3_s, units)
             : "";
}

/// The state in words, empty where the other lines have said it.
std::string state_line(const solver::PlaceAnswer& seen) {
  using solver::PlaceState;
  switch (seen.state) {
    case PlaceState::Ok:
    case PlaceState::Suction:   // the pressure line says how much
    case PlaceState::Spilling:  // the spill line says how much
      return "";
    case PlaceState::Starved:
      return seen.met ? fmt::format("starved: {:.0f}\u00A0%\u00A0of\u00A0need",
                                    std::floor(100.0 * *seen.met))
                      : "starved";
    case PlaceState::BelowVapour:
    case PlaceState::NearVapour:
    case PlaceState::Breaks:
    case PlaceState::Dry:
    case PlaceState::DrawnDown:
      return solver::word_of(seen.state);
  }
  return "";
}

}  // namespace

BoxText short_place_text(const model::Farm& farm,
                         const solver::SteadyAnswer& answer,
                         std::size_t place,
                         model::UnitSystem units) {
  const model::Place& where = farm.places.at(place);
  const solver::PlaceAnswer& seen = answer.places.at(place);
  BoxText text{where.name, {}, {}};
  const bool is_static = answer.load_case == solver::LoadCase::Static;
  if (!is_static) {
    add_facts(text.facts, supply_facts(where, seen, piped_water(farm, answer, place), units));
  }
  if (seen.pressure_Pa && (is_static || model::is_tee(where))) {
    add_facts(text.facts, {pressure_figure(*seen.pressure_Pa, units)});
  }
  add_line(text.attention, state_line(seen));
  return text;
}

BoxText place_text(const model::Farm& farm,
                   const solver::SteadyAnswer& answer,
                   std::size_t place,
                   model::UnitSystem units) {
  const model::Place& where = farm.places.at(place);
  const solver::PlaceAnswer& seen = answer.places.at(place);
  BoxText text{where.name, {}, {}};
  add_facts(text.facts, kind_and_level(where, seen, units));
  add_facts(text.facts, {water_level(seen, units)});
  if (answer.load_case != solver::LoadCase::Static) {
    add_facts(text.facts, supply_facts(where, seen, piped_water(farm, answer, place), units));
    add_facts(text.facts, {spill_line(seen, units)});
  }
  if (seen.pressure_Pa) {
    add_facts(text.facts, {pressure_figure(*seen.pressure_Pa, units)});
  } else if (!seen.head_m && !model::is_open_water(where)) {
    add_facts(text.facts, {"no water stands here"});
  }
  add_line(text.attention, state_line(seen));
  for (const std::string& words : attention_at(where.name, seen.state, answer).words) {
    add_line(text.attention, words);
  }
  return text;
}

}  // namespace leat::render
