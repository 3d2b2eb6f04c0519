#include "render/words/cautions.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <variant>

#include "model/catalogue/fitting_catalogue.h"
#include "render/words/running_text.h"

namespace leat::render {

namespace {

template <class Kind>
bool has_place(const model::Farm& farm) {
  return std::any_of(farm.places.begin(), farm.places.end(), [](const model::Place& place) {
    return std::holds_alternative<Kind>(place.data);
  });
}

template <class Predicate>
bool has_pipe(const model::Farm& farm, Predicate predicate) {
  return std::any_of(farm.pipes.begin(), farm.pipes.end(), predicate);
}

/// Whether water stands below the air's pressure somewhere along a pipe.
bool has_suction(const std::vector<solver::PipeAnswer>& pipes) {
  constexpr double suction_pascals = -100.0;  // as the state "suction" (OUTPUT.md)
  return std::any_of(pipes.begin(), pipes.end(), [](const solver::PipeAnswer& pipe) {
    return pipe.lowest_pressure_Pa && *pipe.lowest_pressure_Pa < suction_pascals;
  });
}

/// Whether a pipe climbs over a rise above the level it starts from.
bool has_siphon(const model::Farm& farm, std::optional<model::Month> month) {
  return has_pipe(farm, [&](const model::Pipe& pipe) {
    const Elevation start = model::from_end_level(farm, pipe, month);
    return std::any_of(pipe.path.begin(), pipe.path.end(), [&](const model::PathPoint& point) {
      return point.elevation > start + metres(0.05);
    });
  });
}

bool has_household_outlet(const model::Farm& farm) {
  return std::any_of(farm.places.begin(), farm.places.end(), model::serves_household);
}

std::vector<std::string> cautions_of(const model::Farm& farm,
                                     std::optional<model::Month> month,
                                     const std::vector<solver::PipeAnswer>& pipes) {
  std::vector<std::string> cautions;
  const auto add_if = [&cautions](bool applies, const char* text) {
    if (applies) {
      cautions.emplace_back(text);
    }
  };
  const bool is_siphon = has_siphon(farm, month);
  add_if(is_siphon,
         "Never start a siphon by mouth, and know how to stop it before you start it; open every "
         "high point, fill slowly (0.3 m/s, 1 ft/s) and stand clear of the ends.");
  add_if(is_siphon || has_suction(pipes), "Suction holds hands and children: screen every intake.");
  add_if(has_place<model::Spring>(farm) || has_place<model::Tank>(farm),
         "Never enter a spring box or a cistern (gas, drowning): fence it and lid it.");
  add_if(has_place<model::Pond>(farm),
         "Ask the dam-safety office before you touch a bank or spillway or draw a pond down.");
  add_if(has_pipe(farm,
                  [](const model::Pipe& pipe) {
                    return std::any_of(
                        pipe.fittings.begin(), pipe.fittings.end(), model::is_foot_valve);
                  }),
         "Never unscrew a foot valve on a running line.");
  add_if(!farm.pipes.empty(), "Drain and vent a line before cutting it.");
  add_if(has_pipe(farm,
                  [](const model::Pipe& pipe) {
                    return pipe.lies == model::Lies::Sun || pipe.lies == model::Lies::Grass;
                  }),
         "A still line in the sun builds pressure.");
  add_if(has_pipe(farm, [](const model::Pipe& pipe) { return pipe.lies == model::Lies::Buried; }),
         "Call before digging.");
  add_if(has_pipe(farm, [](const model::Pipe& pipe) { return pipe.regulator.has_value(); }),
         "A regulator fails open: fit a relief valve below it.");
  add_if(has_place<model::Trough>(farm), "Leave stock another supply while a line is on trial.");
  add_if(has_place<model::Spring>(farm) || has_place<model::Creek>(farm),
         "Water rights come first.");
  add_if(has_place<model::Outlet>(farm), "Not drinking water unless tested.");
  add_if(has_household_outlet(farm),
         "No cross-connection with a household line: leave an air gap.");
  add_if(true, "Local codes and licensed people decide.");
  return cautions;
}

std::string in_lines(const std::vector<std::string>& cautions, const Terminal& terminal) {
  std::string text = "Mind:";
  for (const std::string& caution : cautions) {
    text += ' ' + caution;
  }
  return styled(wrapped(text, text_width(terminal), 0), Style::Dim, terminal.colour);
}

}  // namespace

std::vector<std::string> cautions_for(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  return cautions_of(farm, answer.month, answer.pipes);
}

std::string cautions_text(const model::Farm& farm,
                          const solver::SteadyAnswer& answer,
                          const Terminal& terminal) {
  return in_lines(cautions_for(farm, answer), terminal);
}

std::string cautions_text(const model::Farm& farm, const Terminal& terminal) {
  return in_lines(cautions_of(farm, std::nullopt, {}), terminal);
}

}  // namespace leat::render
