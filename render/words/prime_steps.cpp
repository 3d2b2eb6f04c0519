#include "render/words/prime_steps.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <variant>

#include <fmt/format.h>

#include "model/quantity/quantity.h"
#include "model/quantity/spoken_amount.h"
#include "render/words/prime_ends.h"
#include "render/words/prime_filling.h"
#include "render/words/prime_names.h"
#include "render/words/quoted.h"

namespace leat::render {

namespace {

using solver::PrimePlan;
using solver::spoken_flow;
using solver::spoken_pressure;
using solver::spoken_time;
using solver::spoken_volume;

namespace priming = solver::priming;

/// What is carried up a hill: jugs of 1 gal or buckets of 10 L, as many as that asks for.
std::string vessels(double volume_m3, model::UnitSystem units) {
  const bool is_us = units == model::UnitSystem::Us;
  const double holds_m3 = is_us ? cubic_metres_per_us_gallon : 0.01;
  const double count = std::max(1.0, std::ceil(volume_m3 / holds_m3 - 1e-9));
  return fmt::format("{:.0f} {}{} of {}",
                     count,
                     is_us ? "jug" : "bucket",
                     count > 1.0 ? "s" : "",
                     is_us ? "1 gal" : "10 L");
}

std::string sentence_of(const priming::KnowHowToStop& step,
                        const PrimePlan& plan,
                        model::UnitSystem units) {
  const std::string branches = shut_off_words(step.shut_off);
  std::string usual;
  if (plan.outlet.by != solver::OutletClosing::By::Cap) {
    usual = fmt::format("{}{} {}: it stops, and stays primed. If that cannot be done, ",
                        branches.empty() ? "" : branches + ", then ",
                        plan.outlet.by == solver::OutletClosing::By::Float ? "lift" : "shut",
                        outlet_piece(plan));
  } else if (!branches.empty()) {
    usual = branches + ", then ";
  }
  std::string how = usual + fmt::format("open the cap at {}: air goes in and {}.",
                                        high_point_words("the summit", plan.names.summit, units),
                                        plan.inlet.holds_by_itself()
                                            ? fmt::format("what lies beyond it runs off, while "
                                                          "the {} holds the rest",
                                                          foot_valve_words(plan))
                                            : "the water runs off both ways");
  how.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(how.front())));
  return fmt::format(
      "Know how to stop it before you start it. {} From the side, turn the cap off "
      "by its rim, never with a palm or finger over the hole; keep sleeves and "
      "children away from there and from the inlet in {}: they suck.",
      how,
      quoted(plan.names.source));
}

std::string sentence_of(const priming::CarryWater& step,
                        const PrimePlan& plan,
                        model::UnitSystem units) {
  return fmt::format(
      "Carry {} of water from {} up to {}: {}. The line holds {}; the rest is for "
      "spills and for air that comes out late. Have an airtight cap for the opening "
      "there{}.",
      spoken_volume(step.ready_m3, units),
      quoted(plan.names.source),
      summit_words(plan),
      vessels(step.ready_m3, units),
      spoken_volume(step.line_m3, units),
      step.has_inner_bleeds ? " and for every lower high point named below" : "");
}

std::string sentence_of(const priming::ShutBranch& step,
                        const PrimePlan& /*plan*/,
                        model::UnitSystem units) {
  const std::string name = quoted(step.branch.pipe);
  const std::string tee = quoted(step.branch.tee);
  switch (step.how) {
    case priming::ShutBranch::How::IsShut:
      return fmt::format("See that the valve of {} at {} is shut, as the file has it.", name, tee);
    case priming::ShutBranch::How::AtItsValve:
      return fmt::format("Shut the valve of {} at {}: only the line itself is filled.", name, tee);
    case priming::ShutBranch::How::HasNoValve:
      break;
  }
  return fmt::format(
      "{} has no valve at {}: put one in and shut it. Left open it takes water and "
      "keeps air ({} more, if its far end is shut), and the line cannot be stopped "
      "while it runs.",
      name,
      tee,
      spoken_volume(step.branch_m3, units));
}

std::string sentence_of(const priming::OpenSummit& /*step*/,
                        const PrimePlan& plan,
                        model::UnitSystem units) {
  return fmt::format(
      "Open the line at {}: there the water goes in and the air comes out. If there "
      "is no opening yet, put in a tee that takes an airtight cap, never a vent: "
      "running, the line sucks there, and "
      "a vent would let air in and stop it.",
      high_point_words("the summit", plan.names.summit, units));
}

std::string sentence_of(const priming::OpenHighPoint& step,
                        const PrimePlan& /*plan*/,
                        model::UnitSystem units) {
  return fmt::format("Open {} as well: its air cannot get to the summit.",
                     high_point_words("the high point", step.point, units));
}

std::string sentence_of(const priming::Pour& step, const PrimePlan& plan, model::UnitSystem units) {
  const std::string limit =
      step.velocity_m_s
          ? fmt::format(" (no faster: {} in the pipe)", filling_speed(*step.velocity_m_s, units))
          : "";
  const std::string source = quoted(plan.names.source);
  const std::string already =
      step.already_in_m3 > 0.0
          ? fmt::format(" ({} of it stands in there by itself, up to the level of {})",
                        spoken_volume(step.already_in_m3, units),
                        source)
          : "";
  return fmt::format(
      "Pour water in at {} at {}{}, with pauses, so that the air comes up past it. "
      "It runs down both legs: the one from {} takes {}{}, the one to {} takes {}.{}",
      summit_words(plan),
      spoken_flow(step.rate_m3_s, units),
      limit,
      source,
      spoken_volume(step.inlet_side_m3, units),
      already,
      quoted(plan.names.end),
      spoken_volume(step.outlet_side_m3, units),
      step.to_the_brim ? " Go on until it stands at the brim and stays there." : "");
}

std::string gone_in_words(double poured_m3, model::UnitSystem units) {
  return fmt::format("about {} have gone in since the step before",
                     spoken_volume(poured_m3, units));
}

std::string sentence_of(const priming::CapHighPoint& step,
                        const PrimePlan& /*plan*/,
                        model::UnitSystem units) {
  return fmt::format("When water without bubbles runs out at {}, cap it; {}.",
                     high_point_words("the high point", step.point, units),
                     gone_in_words(step.poured_m3, units));
}

std::string sentence_of(const priming::ShutOutlet& step,
                        const PrimePlan& plan,
                        model::UnitSystem units) {
  return fmt::format("When water without bubbles comes out at the end of {}, {}; {}.",
                     quoted(plan.names.last_pipe),
                     shut_lower_end_words(plan),
                     gone_in_words(step.poured_m3, units));
}

std::string sentence_of(const priming::PourOn& /*step*/,
                        const PrimePlan& plan,
                        model::UnitSystem /*units*/) {
  return fmt::format("Go on pouring at {} until the water stands at the brim and stays there.",
                     summit_words(plan));
}

std::string sentence_of(const priming::WaitAndTopUp& /*step*/,
                        const PrimePlan& plan,
                        model::UnitSystem /*units*/) {
  return fmt::format(
      "Wait ten minutes at {}, knock on the pipe, and top up what sinks. If it goes "
      "on sinking an end leaks: mend that before you go on.",
      summit_words(plan));
}

std::string sentence_of(const priming::CapSummit& /*step*/,
                        const PrimePlan& plan,
                        model::UnitSystem /*units*/) {
  return fmt::format("Cap {} airtight, full to the brim.", summit_words(plan));
}

std::string sentence_of(const priming::WaitForOwnWater& step,
                        const PrimePlan& plan,
                        model::UnitSystem /*units*/) {
  return fmt::format(
      "For the first {}{} the water you poured in runs out at {}; then comes that "
      "of {}.",
      spoken_time(step.after_s),
      step.has_branches ? " or more" : "",
      quoted(plan.names.end),
      quoted(plan.names.source));
}

std::string sentence_of(const priming::LetBranchIn& step,
                        const PrimePlan& /*plan*/,
                        model::UnitSystem /*units*/) {
  const std::string name = quoted(step.branch.pipe);
  const std::string tee = quoted(step.branch.tee);
  return step.leaves
             ? fmt::format(
                   "When the line runs steadily, let water into {} at {}, slowly, its far "
                   "end open so that the air leaves there.",
                   name,
                   tee)
             : fmt::format(
                   "When the line runs steadily, let {} bring its water to {} again.", name, tee);
}

/// What a bucket and a watch would show; a larger bucket where a small one fills too fast.
std::string bucket_words(double flow_m3_s, model::UnitSystem units) {
  if (flow_m3_s <= 0.0) {
    return "";
  }
  constexpr double too_fast_s = 10.0;
  const bool is_us = units == model::UnitSystem::Us;
  const double small_m3 = is_us ? cubic_metres_per_us_gallon : 0.01;
  const double large_m3 = is_us ? 5.0 * cubic_metres_per_us_gallon : 0.05;
  const bool is_large = small_m3 / flow_m3_s < too_fast_s;
  const char* const words =
      is_us ? (is_large ? "5 gal bucket" : "1 gal jug") : (is_large ? "50 L tub" : "10 L bucket");
  return fmt::format(
      ": a {} is full in {}", words, spoken_time((is_large ? large_m3 : small_m3) / flow_m3_s));
}

std::string sentence_of(const priming::MeasureFlow& step,
                        const PrimePlan& plan,
                        model::UnitSystem units) {
  return fmt::format("At {} expect {}{}{}.",
                     quoted(plan.names.end),
                     spoken_flow(step.flow_m3_s, units),
                     bucket_words(step.flow_m3_s, units),
                     step.is_lifted
                         ? " (lift the end over the rim of the bucket on the bank: a little less "
                           "runs than said)"
                         : "");
}

std::string top_up_words(const priming::Watch& step) {
  using TopUp = priming::Watch::TopUp;
  if (step.top_up == TopUp::BeginAgain) {
    return fmt::format(
        "stop it at the summit, let it run off, then begin again at step {}, with fresh water",
        step.begin_at);
  }
  const std::string branches = shut_off_words(step.shut_off);
  return fmt::format("{}shut {}, open the summit, top up, cap, open as before",
                     branches.empty() ? "" : branches + ", ",
                     step.top_up == TopUp::LowerEndShut ? "the lower end" : "both ends");
}

std::string sentence_of(const priming::Watch& step,
                        const PrimePlan& plan,
                        model::UnitSystem /*units*/) {
  const std::string source = quoted(plan.names.source);
  return fmt::format(
      "Measure again at {} after a day. A flow that falls in steps, with gurgling, "
      "is air gathering at {}: {}. One that falls slowly and evenly is a strainer "
      "filling or {} going down. One that stops at once drew air at the inlet or at "
      "a joint above the level of {}.",
      quoted(plan.names.end),
      summit_words(plan),
      top_up_words(step),
      source,
      source);
}

}  // namespace

std::string step_sentence(const PrimePlan& plan,
                          const solver::PrimeStep& step,
                          model::UnitSystem units) {
  return std::visit([&](const auto& action) { return sentence_of(action, plan, units); },
                    step.action);
}

std::vector<std::string> step_sentences(const PrimePlan& plan, model::UnitSystem units) {
  std::vector<std::string> sentences;
  for (const solver::PrimeStep& step : plan.steps) {
    std::string amount;
    if (step.volume_m3) {
      amount = fmt::format(" ({}{})",
                           spoken_volume(*step.volume_m3, units),
                           step.time_s ? ", " + spoken_time(*step.time_s) + " or more" : "");
    }
    sentences.push_back(step_sentence(plan, step, units) + amount);
  }
  return sentences;
}

}  // namespace leat::render
