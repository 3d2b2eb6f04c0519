#include "render/words/prime_ends.h"

#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/prime_names.h"
#include "render/words/quoted.h"
#include "render/words/valve_word.h"

namespace leat::render {

namespace {

using solver::InletClosing;
using solver::OutletClosing;
using solver::PrimePlan;

/// Share of the valve's way, as it is turned.
std::string opening_words(double open) {
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

std::string under_words(const OutletClosing& outlet, model::UnitSystem units) {
  return outlet.is_under_water() ? fmt::format(" (it lies {} under the water there)",
                                               solver::spoken_length(outlet.depth_m, units))
                                 : "";
}

std::string why_a_valve(const OutletClosing& outlet, model::UnitSystem units) {
  if (outlet.at_float) {
    return fmt::format(
        "The float alone does not hold: that is more than the {} it closes "
        "against.",
        solver::spoken_pressure(*outlet.closes_against_Pa, units));
  }
  if (outlet.is_under_water()) {
    return "The file has none there, and nobody should work a cap off under water.";
  }
  return fmt::format(
      "The file has none there, and a cap should not be worked off against more "
      "than {}.",
      solver::spoken_pressure(solver::most_on_a_cap_Pa, units));
}

std::string fit_valve_words(const PrimePlan& plan, bool left_open, model::UnitSystem units) {
  return fmt::format(
      "Before anything is filled, fit a valve at the end of {}{} at {}, to be "
      "turned from dry ground{}. It must hold {} when the line is full. {}",
      quoted(plan.names.last_pipe),
      under_words(plan.outlet, units),
      quoted(plan.names.end),
      left_open ? "" : ", and shut it",
      solver::spoken_pressure(plan.outlet.standing_Pa, units),
      why_a_valve(plan.outlet, units));
}

std::string shut_valve_words(const PrimePlan& plan, bool left_open, model::UnitSystem units) {
  return fmt::format("Go to {} and {} {}{}. It must hold {} when the line is full.",
                     quoted(plan.names.end),
                     left_open ? "try" : "shut",
                     outlet_piece(plan),
                     under_words(plan.outlet, units),
                     solver::spoken_pressure(plan.outlet.standing_Pa, units));
}

}  // namespace

std::string outlet_piece(const PrimePlan& plan) {
  const std::string last = quoted(plan.names.last_pipe);
  switch (plan.outlet.by) {
    case OutletClosing::By::FittedValve:
      return fmt::format("the valve fitted at the end of {}", last);
    case OutletClosing::By::Valve:
      return fmt::format("the {} at the end of {}", valve_word(plan.outlet.valve), last);
    case OutletClosing::By::Float:
      return fmt::format("the float of {}", quoted(plan.names.end));
    case OutletClosing::By::Cap:
      break;
  }
  return fmt::format("the cap on the end of {}", last);
}

std::string shut_lower_end_words(const PrimePlan& plan) {
  switch (plan.outlet.by) {
    case OutletClosing::By::Float:
      return fmt::format("tie up {}", outlet_piece(plan));
    case OutletClosing::By::Cap:
      return "put its cap on";
    case OutletClosing::By::Valve:
    case OutletClosing::By::FittedValve:
      break;
  }
  return fmt::format("shut {}", outlet_piece(plan));
}

std::string foot_valve_words(const PrimePlan& plan) {
  if (plan.inlet.by == InletClosing::By::FittedFootValve) {
    return "foot valve";
  }
  return plan.inlet.one_way.empty() ? "one-way" : plan.inlet.one_way;
}

std::string sentence_of(const solver::priming::CloseInlet& /*step*/,
                        const PrimePlan& plan,
                        model::UnitSystem units) {
  const InletClosing& inlet = plan.inlet;
  const std::string first = quoted(plan.names.first_pipe);
  const std::string source = quoted(plan.names.source);
  const std::string deep =
      inlet.depth_m > 0.0
          ? fmt::format(
                "{} under the water of {}", solver::spoken_length(inlet.depth_m, units), source)
          : fmt::format("at the very surface of {} by the file: put it well under", source);
  const std::string pressure = solver::spoken_pressure(inlet.standing_Pa, units);
  switch (inlet.by) {
    case InletClosing::By::FittedFootValve:
      return fmt::format(
          "Fit a foot valve into the inlet of {}, clean and tight, and lay it {}, "
          "screened. A plug would have to hold {}, and one pulled by a cord should "
          "hold no more than {}.",
          first,
          deep,
          pressure,
          solver::spoken_pressure(solver::most_on_a_cap_Pa, units));
    case InletClosing::By::OneWay:
      return fmt::format(
          "See that the inlet of {} lies {}, screened, and that its {} is clean and "
          "shuts: it holds the water in the leg up to the summit.",
          first,
          deep,
          foot_valve_words(plan));
    case InletClosing::By::Valve:
      return fmt::format(
          "See that the inlet of {} lies {}, screened, and shut the {} at the start "
          "of {}.",
          first,
          deep,
          valve_word(inlet.valve),
          first);
    case InletClosing::By::Plug:
      break;
  }
  return fmt::format(
      "Put a plug on a cord into the inlet of {}, so tight that it holds the water "
      "of the leg up to the summit ({}). Screen the inlet with a basket large "
      "enough for the plug to drop out inside it, the cord led through to the bank, "
      "and lay it {}. The file has neither valve nor foot valve there.",
      first,
      pressure,
      deep);
}

std::string sentence_of(const solver::priming::CloseOutlet& step,
                        const PrimePlan& plan,
                        model::UnitSystem units) {
  const std::string end = quoted(plan.names.end);
  const std::string last = quoted(plan.names.last_pipe);
  const std::string pressure = solver::spoken_pressure(plan.outlet.standing_Pa, units);
  std::string text;
  switch (plan.outlet.by) {
    case OutletClosing::By::FittedValve:
      text = fit_valve_words(plan, step.left_open, units);
      break;
    case OutletClosing::By::Valve:
      text = shut_valve_words(plan, step.left_open, units);
      break;
    case OutletClosing::By::Float:
      text = fmt::format(
          "Go to {} {} its float, {} the end of {}. It must hold {} when the line is "
          "full. If it drips, fit a valve in front of it.",
          end,
          step.left_open ? "with a cord for" : "and tie up",
          step.left_open ? "which is to shut" : "so that it shuts",
          last,
          pressure);
      break;
    case OutletClosing::By::Cap:
      text = fmt::format(
          "Go to {} {} a cap {} the end of {}. It must hold {} when the line is "
          "full. The file has no valve there; one would be better, since the cap "
          "must come off against that pressure.",
          end,
          step.left_open ? "with" : "and put",
          step.left_open ? "for" : "on",
          last,
          pressure);
      break;
  }
  return step.left_open
             ? text + " Leave it open as yet: the line rises to it, and its air leaves there."
             : text;
}

std::string sentence_of(const solver::priming::OpenInlet& /*step*/,
                        const PrimePlan& plan,
                        model::UnitSystem /*units*/) {
  const std::string first = quoted(plan.names.first_pipe);
  if (plan.inlet.by == InletClosing::By::Valve) {
    return fmt::format(
        "With the lower end still shut, open the {} at the start of {} fully. Never "
        "throttle there, only at the lower end.",
        valve_word(plan.inlet.valve),
        first);
  }
  return fmt::format(
      "With the lower end still shut, pull the plug of {} by its cord, the inlet "
      "staying under the water of {} all the time. Stand on the bank. The water "
      "stays up in the line.",
      first,
      quoted(plan.names.source));
}

std::string sentence_of(const solver::priming::OpenOutlet& /*step*/,
                        const PrimePlan& plan,
                        model::UnitSystem /*units*/) {
  const std::string end = quoted(plan.names.end);
  switch (plan.outlet.by) {
    case OutletClosing::By::Valve:
      return fmt::format(
          "Go to {}, stand clear of the end, and open {} slowly, over a minute, {}. "
          "The figures here are for that opening: wider draws harder at the summit.",
          end,
          outlet_piece(plan),
          opening_words(plan.outlet.opening));
    case OutletClosing::By::FittedValve:
      return fmt::format(
          "Go to {}, {}stand clear of the end, and open {} slowly, over a minute, "
          "until it is wide open.",
          end,
          plan.outlet.at_float ? "see that its float is down, " : "",
          outlet_piece(plan));
    case OutletClosing::By::Float:
      return fmt::format("Go to {} and let its float down slowly, standing clear of the jet.", end);
    case OutletClosing::By::Cap:
      break;
  }
  return fmt::format("Go to {} and work the cap off the end of {} slowly, standing to one side.",
                     end,
                     quoted(plan.names.last_pipe));
}

}  // namespace leat::render
