#include "solver/prime/prime_ends.h"

#include <cmath>
#include <numeric>
#include <variant>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"

namespace leat::solver {

namespace {

using Kind = EndClosure::Kind;

/// Share of the valve's way, as it is turned.
std::string opening_words(const model::Valve& valve) {
  const double open = valve.shut ? 1.0 : valve.open;
  if (open >= 1.0) {
    return "until it is wide open";
  }
  const double eighths = open * 8.0;
  if (std::abs(eighths - std::round(eighths)) < 1e-6) {
    const int part = static_cast<int>(std::round(eighths));
    const int common = std::gcd(part, 8);
    return fmt::format("to {}/{} open", part / common, 8 / common);
  }
  return fmt::format("to {:.0f} % open", open * 100.0);
}

}  // namespace

std::string PrimeEnds::outlet_piece() const {
  if (fits_valve_) {
    return fmt::format("the valve fitted at the end of {}", last_name());
  }
  switch (course_.outlet.kind) {
    case Kind::Valve:
      return fmt::format("the {} at the end of {}", course_.outlet.name, last_name());
    case Kind::Float:
      return fmt::format("the float of {}", end_name());
    case Kind::OneWay:
    case Kind::Cap:
      break;
  }
  return fmt::format("the cap on the end of {}", last_name());
}

bool PrimeEnds::has_cap_only() const {
  return course_.outlet.kind == Kind::Cap && !fits_valve_;
}

bool PrimeEnds::lifts_float() const {
  return course_.outlet.kind == Kind::Float && !fits_valve_;
}

bool PrimeEnds::fits_foot_valve() const {
  return must_fit_foot_valve(plan_);
}

bool PrimeEnds::has_foot_valve() const {
  return course_.inlet.kind == Kind::OneWay || fits_foot_valve();
}

std::string PrimeEnds::foot_valve_words() const {
  return fits_foot_valve() ? "foot valve" : course_.inlet.name;
}

void PrimeEnds::close_inlet() {
  const std::string deep =
      inlet_depth_m() > 0.0
          ? fmt::format(
                "{} under the water of {}", spoken_length(inlet_depth_m(), units_), source_name())
          : fmt::format("at the very surface of {} by the file: put it well under", source_name());
  const std::string pressure =
      spoken_pressure(standing_pressure_Pa(plan_, course_.line.points.front()), units_);
  if (fits_foot_valve()) {
    step(first_pipe(),
         fmt::format("Fit a foot valve into the inlet of {}, clean and tight, and lay it {}, "
                     "screened. A plug would have to hold {}, and one pulled by a cord should "
                     "hold no more than {}.",
                     first_name(),
                     deep,
                     pressure,
                     spoken_pressure(most_on_a_cap_Pa, units_)));
    return;
  }
  switch (course_.inlet.kind) {
    case Kind::OneWay:
      step(first_pipe(),
           fmt::format("See that the inlet of {} lies {}, screened, and that its {} is clean and "
                       "shuts: it holds the water in the leg up to the summit.",
                       first_name(),
                       deep,
                       course_.inlet.name));
      return;
    case Kind::Valve:
      step(first_pipe(),
           fmt::format("See that the inlet of {} lies {}, screened, and shut the {} at the start "
                       "of {}.",
                       first_name(),
                       deep,
                       course_.inlet.name,
                       first_name()));
      return;
    case Kind::Float:
    case Kind::Cap:
      break;
  }
  step(first_pipe(),
       fmt::format("Put a plug on a cord into the inlet of {}, so tight that it holds the water "
                   "of the leg up to the summit ({}). Screen the inlet with a basket large "
                   "enough for the plug to drop out inside it, the cord led through to the bank, "
                   "and lay it {}. The file has neither valve nor foot valve there.",
                   first_name(),
                   pressure,
                   deep));
}

void PrimeEnds::close_outlet() {
  const std::string pressure =
      spoken_pressure(standing_pressure_Pa(plan_, course_.line.points.back()), units_);
  const std::string must_hold = fmt::format("It must hold {} when the line is full.", pressure);
  const bool is_left_open = course_.bleeds_at_lower_end();
  const std::string open_as_yet =
      is_left_open ? " Leave it open as yet: the line rises to it, and its air leaves there." : "";
  const std::string under = outlet_depth_m() > under_water_m
                                ? fmt::format(" (it lies {} under the water there)",
                                              spoken_length(outlet_depth_m(), units_))
                                : "";
  const auto say = [&](const std::string& where, const std::string& text) {
    step(where, text + open_as_yet, std::nullopt, std::nullopt, PrimeStep::Kind::ShutLowerEnd);
  };
  if (fits_valve_) {
    say(last_pipe(),
        fmt::format("Before anything is filled, fit a valve at the end of {}{} at {}, to be "
                    "turned from dry ground{}. {} {}",
                    last_name(),
                    under,
                    end_name(),
                    is_left_open ? "" : ", and shut it",
                    must_hold,
                    why_a_valve()));
    return;
  }
  switch (course_.outlet.kind) {
    case Kind::Valve:
      say(last_pipe(),
          is_left_open
              ? fmt::format(
                    "Go to {} and try {}{}. {}", end_name(), outlet_piece(), under, must_hold)
              : fmt::format(
                    "Go to {} and shut {}{}. {}", end_name(), outlet_piece(), under, must_hold));
      return;
    case Kind::Float:
      say(end_place(),
          fmt::format("Go to {} {} its float, {} the end of {}. {} If it drips, fit a valve in "
                      "front of it.",
                      end_name(),
                      is_left_open ? "with a cord for" : "and tie up",
                      is_left_open ? "which is to shut" : "so that it shuts",
                      last_name(),
                      must_hold));
      return;
    case Kind::OneWay:
    case Kind::Cap:
      break;
  }
  say(last_pipe(),
      fmt::format("Go to {} {} a cap {} the end of {}. {} The file has no valve there; one would "
                  "be better, since the cap must come off against that pressure.",
                  end_name(),
                  is_left_open ? "with" : "and put",
                  is_left_open ? "for" : "on",
                  last_name(),
                  must_hold));
}

std::string PrimeEnds::why_a_valve() const {
  if (course_.outlet.kind == Kind::Float) {
    const auto& trough = std::get<model::Trough>(farm_.places[course_.line.to].data);
    return fmt::format(
        "The float alone does not hold: that is more than the {} it closes "
        "against.",
        spoken_pressure(in_pascals(*trough.closes_against), units_));
  }
  if (outlet_depth_m() > under_water_m) {
    return "The file has none there, and nobody should work a cap off under water.";
  }
  return fmt::format(
      "The file has none there, and a cap should not be worked off against more "
      "than {}.",
      spoken_pressure(most_on_a_cap_Pa, units_));
}

std::string PrimeEnds::shut_lower_end_words() const {
  if (lifts_float()) {
    return fmt::format("tie up {}", outlet_piece());
  }
  return has_cap_only() ? "put its cap on" : fmt::format("shut {}", outlet_piece());
}

void PrimeEnds::let_source_in() {
  if (has_foot_valve()) {
    return;  // it opens by itself
  }
  if (course_.inlet.kind == Kind::Valve) {
    step(first_pipe(),
         fmt::format("With the lower end still shut, open the {} at the start of {} fully. Never "
                     "throttle there, only at the lower end.",
                     course_.inlet.name,
                     first_name()));
    return;
  }
  step(first_pipe(),
       fmt::format("With the lower end still shut, pull the plug of {} by its cord, the inlet "
                   "staying under the water of {} all the time. Stand on the bank. The water "
                   "stays up in the line.",
                   first_name(),
                   source_name()));
}

void PrimeEnds::open_outlet() {
  constexpr const char* drawn_harder =
      "The figures here are for that opening: wider draws harder at the summit.";
  if (course_.outlet.kind == Kind::Valve) {
    step(last_pipe(),
         fmt::format("Go to {}, stand clear of the end, and open {} slowly, over a minute, {}. "
                     "{}",
                     end_name(),
                     outlet_piece(),
                     opening_words(*farm_.pipes[course_.outlet.pipe].valve),
                     drawn_harder));
    return;
  }
  if (fits_valve_) {
    step(last_pipe(),
         fmt::format("Go to {}, {}stand clear of the end, and open {} slowly, over a minute, "
                     "until it is wide open.",
                     end_name(),
                     course_.outlet.kind == Kind::Float ? "see that its float is down, " : "",
                     outlet_piece()));
    return;
  }
  if (course_.outlet.kind == Kind::Float) {
    step(end_place(),
         fmt::format("Go to {} and let its float down slowly, standing clear of the jet.",
                     end_name()));
    return;
  }
  step(last_pipe(),
       fmt::format("Go to {} and work the cap off the end of {} slowly, standing to one side.",
                   end_name(),
                   last_name()));
}

}  // namespace leat::solver
