#include "render/words/prime_remarks.h"

#include <variant>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/prime_names.h"
#include "render/words/quoted.h"
#include "render/words/valve_word.h"

namespace leat::render {

namespace {

using solver::PrimePlan;
using solver::spoken_flow;
using solver::spoken_length;
using solver::spoken_pressure;

namespace priming = solver::priming;

std::string remark_of(const priming::PourSlower& remark,
                      const PrimePlan& /*plan*/,
                      model::UnitSystem units) {
  return fmt::format(
      "Poured in at {} the water would run at more than {} in the pipe and shut "
      "air in: hold it "
      "to {}.",
      spoken_flow(remark.asked_m3_s, units),
      filling_speed(remark.velocity_m_s, units),
      spoken_flow(remark.fill_m3_s, units));
}

std::string remark_of(const priming::PumpIdle& remark,
                      const PrimePlan& /*plan*/,
                      model::UnitSystem units) {
  return fmt::format("Your pump of {} {}.",
                     spoken_pressure(remark.shut_off_Pa, units),
                     remark.fills_itself ? "is not needed: the line fills by itself"
                                         : "changes nothing in that: do not fill the line with it");
}

std::string remark_of(const priming::FloatBarsPump& /*remark*/,
                      const PrimePlan& plan,
                      model::UnitSystem /*units*/) {
  return fmt::format(
      "A pump cannot fill it from below through the float of {}: take the float "
      "off and put a valve there first, or pour at the summit.",
      quoted(plan.names.end));
}

/// "steps 4, 6 and 8".
std::string step_numbers(const std::vector<std::size_t>& numbers) {
  std::string text = numbers.size() == 1 ? "step " : "steps ";
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    const char* const before = i == 0 ? "" : i + 1 == numbers.size() ? " and " : ", ";
    text += fmt::format("{}{}", before, numbers[i]);
  }
  return text;
}

/// What the pump the user named would do.
std::string own_pump_words(const priming::OwnPump& own, model::UnitSystem units) {
  const std::string yours = spoken_pressure(own.shut_off_Pa, units);
  const std::string stops = fmt::format("stops at {}, {} below the summit",
                                        solver::spoken_level(own.reaches_m, units),
                                        spoken_length(own.short_m, units));
  if (own.is_too_strong) {
    return fmt::format(" Yours of {} {}, {} it is too strong: do not use it.",
                       yours,
                       own.short_m > 0.0 ? stops : "would reach the summit",
                       own.short_m > 0.0 ? "and" : "but");
  }
  return own.short_m > 0.0
             ? fmt::format(" Yours of {} {}: fill the rest by hand at the summit.", yours, stops)
             : fmt::format(" Yours of {} reaches the summit.", yours);
}

/// What the pipe bears of a pump.
std::string limit_words(const priming::PumpInstead& remark,
                        const PrimePlan& plan,
                        model::UnitSystem units) {
  if (!remark.limit) {
    return fmt::format(" {} carries no rating: the gauge must not go above what is needed.",
                       quoted(plan.names.last_pipe));
  }
  return fmt::format(
      " It must not be able to give more than {} there, for {} at {}: 72 % of "
      "its rating.",
      spoken_pressure(remark.limit->most_Pa, units),
      quoted(remark.limit->pipe),
      spoken_length(remark.limit->at_m, units));
}

/// How the lower end is made ready for the pump.
std::string pumping_words(const priming::PumpInstead& remark,
                          const PrimePlan& plan,
                          const std::string& valve) {
  const std::string steps = step_numbers(remark.replaces);
  if (plan.outlet.by == solver::OutletClosing::By::FittedValve) {
    return fmt::format(
        "Leave the valve that is fitted there open, with the summit open, and pump "
        "in place of {}",
        steps);
  }
  return fmt::format(
      "In place of {} open the {} there, with the summit open, and pump", steps, valve);
}

std::string remark_of(const priming::PumpInstead& remark,
                      const PrimePlan& plan,
                      model::UnitSystem units) {
  using By = solver::OutletClosing::By;
  const std::string end = quoted(plan.names.end);
  const bool is_capped = plan.outlet.by == By::Cap;
  const std::string valve = plan.outlet.by == By::Valve ? valve_word(plan.outlet.valve) : "valve";
  const bool is_us = units == model::UnitSystem::Us;
  const std::string how = fmt::format(
      "With a pump instead{}: it draws from {} and is joined to the lower end of {}. {}; the "
      "other steps hold{}. Water comes up from below, the air goes out at the summit, and what "
      "spills over it fills the leg to {}; shut the {} as soon as the summit is full to the "
      "brim, "
      "then stop the pump. It must reach {} there at {}. A weaker pump fills the line only part "
      "of the way: each {} short is {} of height.",
      is_capped ? ", put a valve on the lower end first, else this cannot be done" : "",
      remark.draws_at_end
          ? end
          : fmt::format(
                "a barrel of {} beside {}", solver::spoken_volume(remark.barrel_m3, units), end),
      quoted(plan.names.last_pipe),
      pumping_words(remark, plan, valve),
      is_capped ? ", with the valve in place of the cap" : " as they are",
      quoted(plan.names.source),
      valve,
      spoken_pressure(remark.needed_Pa, units),
      spoken_flow(remark.rate_m3_s, units),
      is_us ? "1 psi" : "10 kPa",
      is_us ? "2.3 ft" : "1 m");
  return how + limit_words(remark, plan, units) +
         (remark.own ? own_pump_words(*remark.own, units) : "");
}

std::string remark_of(const priming::FootValveToFit& /*remark*/,
                      const PrimePlan& /*plan*/,
                      model::UnitSystem /*units*/) {
  return "The flow is reckoned without a foot valve. Put the foot valve that is to be fitted into "
         "the file "
         "and plan again: some kinds take a good part of the flow of a short line.";
}

std::string remark_of(const priming::NoFootValve& remark,
                      const PrimePlan& /*plan*/,
                      model::UnitSystem /*units*/) {
  return remark.has_both_valves
             ? "This line has no foot valve. The valve at each end holds the water while one "
               "person fills, and hardly slows it."
             : "This line has no foot valve. A valve at each end holds the water while one "
               "person fills, and hardly slows it.";
}

std::string remark_of(const priming::FootValvePrice& remark,
                      const PrimePlan& /*plan*/,
                      model::UnitSystem units) {
  const double share =
      remark.without_m3_s > 0.0 ? 100.0 * (1.0 - remark.with_m3_s / remark.without_m3_s) : 0.0;
  return fmt::format(
      "The foot valve stays in the running line: {} with it, {} without, {}. Safe "
      "ways to do without: a valve at both ends, or a flap held open by a cord once it runs. "
      "Never unscrew it on a running line: the inlet sucks.",
      spoken_flow(remark.with_m3_s, units),
      spoken_flow(remark.without_m3_s, units),
      share < 0.5 ? std::string("hardly less") : fmt::format("{:.0f} % less", share));
}

std::string remark_of(const priming::PartedFlow& remark,
                      const PrimePlan& /*plan*/,
                      model::UnitSystem units) {
  return fmt::format(
      "While parted water runs at all, the leg up to the summit alone decides how "
      "much: at most "
      "{}. A lower end, or a wider pipe below the summit, adds nothing.",
      spoken_flow(remark.at_most_m3_s, units));
}

std::string remark_of(const priming::AirHoldsBack& remark,
                      const PrimePlan& /*plan*/,
                      model::UnitSystem units) {
  const std::string lifted = spoken_length(remark.lifted_m, units);
  const std::string fall = spoken_length(remark.fall_m, units);
  return remark.starts
             ? fmt::format(
                   "Filled with its high points shut, trapped air can hold back {} of water "
                   "out of a fall of {}: it starts all the same, though with less until the "
                   "air is out.",
                   lifted,
                   fall)
             : fmt::format(
                   "Filled with its high points shut, trapped air can hold back {} of "
                   "water, but the fall is only {}: it does not start until they are bled.",
                   lifted,
                   fall);
}

std::string remark_of(const priming::RunsPartFull& remark,
                      const PrimePlan& /*plan*/,
                      model::UnitSystem units) {
  return fmt::format("Running, {} is part full over {}, with air or vapour above the water{}.",
                     quoted(remark.pipe),
                     remark.is_all ? "all its length"
                                   : fmt::format("{} of its {}",
                                                 spoken_length(remark.length_m, units),
                                                 spoken_length(remark.whole_m, units)),
                     remark.is_all           ? ""
                     : remark.is_full_at_end ? ", and full again before its lower end"
                                             : ", and not full again before its lower end");
}

}  // namespace

std::vector<std::string> remark_sentences(const PrimePlan& plan, model::UnitSystem units) {
  std::vector<std::string> sentences;
  for (const solver::PrimeRemark& remark : plan.remarks) {
    sentences.push_back(
        std::visit([&](const auto& each) { return remark_of(each, plan, units); }, remark));
  }
  return sentences;
}

}  // namespace leat::render
