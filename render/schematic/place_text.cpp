#include "render/schematic/place_text.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "render/schematic/attention.h"
#include "render/schematic/figure_text.h"

namespace leat::render {
namespace {

constexpr double still_m3_s = 1e-9;  // as for the state `still` of a pipe

std::string kind_and_level(const model::Place& place,
                           const solver::PlaceAnswer& seen,
                           model::UnitSystem units) {
  const std::string level = level_figure(seen.elevation_m, units);
  const bool is_tank = std::holds_alternative<model::Tank>(place.data);
  std::string text = model::kind_word(place);
  text += is_tank ? ", floor " + level : ", " + level;
  const bool stands_elsewhere = seen.level_m && std::abs(*seen.level_m - seen.elevation_m) > 0.005;
  if (stands_elsewhere) {
    text += ", water " + level_figure(*seen.level_m, units);
  }
  return text;
}

/// Water that pipes bring to a place, whatever leaves it again [m3/s].
double water_coming(const model::Farm& farm,
                    const solver::SteadyAnswer& answer,
                    std::size_t place) {
  double sum = 0.0;
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    const double flow = answer.pipes[i].flow_m3_s;
    sum += farm.pipes[i].to == place ? std::max(0.0, flow) : 0.0;
    sum += farm.pipes[i].from == place ? std::max(0.0, -flow) : 0.0;
  }
  return sum;
}

/// What the water does there: gets, gives, spills. Empty for a tee.
std::string supply_line(const model::Place& place,
                        const solver::PlaceAnswer& seen,
                        double comes_m3_s,
                        model::UnitSystem units) {
  if (std::holds_alternative<model::Tee>(place.data)) {
    return "";
  }
  std::string text;
  if (seen.need_m3_s) {
    text = fmt::format("gets {} of {}",
                       flow_number(seen.delivered_m3_s, units),
                       flow_figure(*seen.need_m3_s, units));
  } else if (seen.delivered_m3_s < -still_m3_s) {
    text = "gives " + flow_figure(-seen.delivered_m3_s, units);
  } else if (seen.delivered_m3_s > still_m3_s) {
    text = "gets " + flow_figure(seen.delivered_m3_s, units);
  } else if (comes_m3_s > still_m3_s) {
    text = "passes on " + flow_figure(comes_m3_s, units);
  } else {
    text = model::is_open_water(place) ? "gives nothing" : "gets nothing";
  }
  if (seen.spill_m3_s && *seen.spill_m3_s > still_m3_s) {
    text += ", spills " + flow_figure(*seen.spill_m3_s, units);
  }
  return text;
}

/// The state in words, empty where the other lines have said it.
std::string state_line(const solver::PlaceAnswer& seen) {
  using solver::PlaceState;
  switch (seen.state) {
    case PlaceState::Ok:
    case PlaceState::Suction:   // the pressure line says how much
    case PlaceState::Spilling:  // the supply line says how much
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

BoxText place_text(const model::Farm& farm,
                   const solver::SteadyAnswer& answer,
                   std::size_t place,
                   model::UnitSystem units) {
  const model::Place& where = farm.places.at(place);
  const solver::PlaceAnswer& seen = answer.places.at(place);
  BoxText text{where.name, {}, {}};
  add_line(text.facts, kind_and_level(where, seen, units));
  if (answer.load_case != solver::LoadCase::Static) {
    add_line(text.facts, supply_line(where, seen, water_coming(farm, answer, place), units));
  }
  if (seen.pressure_Pa) {
    add_line(text.facts, pressure_figure(*seen.pressure_Pa, units));
  } else if (!seen.head_m && !model::is_open_water(where)) {
    add_line(text.facts, "no water stands here");
  }
  add_line(text.attention, state_line(seen));
  for (const std::string& words : attention_at(where.name, seen.state, answer).words) {
    add_line(text.attention, words);
  }
  return text;
}

}  // namespace leat::render
