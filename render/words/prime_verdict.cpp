#include "render/words/prime_verdict.h"

#include <utility>
#include <variant>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/finding_sentence.h"
#include "render/words/prime_names.h"
#include "render/words/quoted.h"

namespace leat::render {

namespace {

using solver::PrimePlan;
using solver::spoken_length;
using solver::spoken_level;

namespace priming = solver::priming;

std::string reason_of(const priming::FoundUnsafe& refusal,
                      const PrimePlan& /*plan*/,
                      model::UnitSystem units) {
  return render::sentence_of(refusal.finding, units) +
         (refusal.by_own_water ? ". A lower summit, stronger pipe in the dip, or "
                                 "filling each leg by itself."
                               : ".");
}

std::string reason_of(const priming::VentInTheWay& refusal,
                      const PrimePlan& /*plan*/,
                      model::UnitSystem units) {
  return fmt::format(
      "the vent on {} at {} {}. Take it out and close the place with a "
      "plug or a hand valve.",
      quoted(refusal.pipe),
      spoken_length(refusal.at_m, units),
      refusal.stands_higher ? "stands where the line runs in suction, and a vent there "
                              "lets air in"
                            : "spills before the line is full, and lets air in where "
                              "the line runs in suction");
}

std::string reason_of(const priming::EndAboveSource& refusal,
                      const PrimePlan& plan,
                      model::UnitSystem units) {
  return fmt::format(
      "{} ({}) does not stand above its end ({}), and water does not run "
      "uphill.",
      quoted(plan.names.source),
      spoken_level(refusal.source_m, units),
      spoken_level(refusal.end_m, units));
}

std::string reason_of(const priming::NothingRuns& /*refusal*/,
                      const PrimePlan& plan,
                      model::UnitSystem /*units*/) {
  return fmt::format("nothing would run to {} with every float open. leat solve says why.",
                     quoted(plan.names.end));
}

std::string holds_words(const PrimePlan& plan, model::UnitSystem units) {
  std::string text = fmt::format("{} stands {} above {}, so the line must be primed.",
                                 high_point_words("The summit", plan.names.summit, units),
                                 spoken_length(plan.course.climb_m(), units),
                                 quoted(plan.names.source));
  if (plan.margin_m) {
    text += fmt::format(" Running, it has {} left there before the water would part: it holds.",
                        spoken_length(*plan.margin_m, units));
  }
  for (const std::string& pipe : plan.opened_valves) {
    text +=
        fmt::format(" The file has the valve of {} shut; this is for it wide open.", quoted(pipe));
  }
  return text;
}

/// The code, text and hint of a problem.
struct Told {
  const char* code;
  std::string text;
  std::string hint;
};

Told told(const priming::UnknownPipe& problem) {
  return {"unknown-pipe",
          fmt::format("no pipe is named '{}'", problem.name),
          problem.near ? fmt::format("did you mean '{}'?", *problem.near) : ""};
}

Told told(const priming::StartsWithoutWater& problem) {
  return {"line-without-water",
          fmt::format("the line of pipe '{}' does not start at water: the file has it begin at {}",
                      problem.pipe,
                      problem.place),
          "name a pipe on the way down from a spring, creek, pond or tank; write a pipe that "
          "brings water with the water as its from"};
}

Told told(const priming::RunsBackwards& problem) {
  return {"runs-backwards",
          fmt::format("water runs backwards in pipe '{}', so there is no plan for priming it as "
                      "the file has it",
                      problem.pipe),
          "leat solve FILE says where its water comes from"};
}

}  // namespace

std::string prime_verdict(const PrimePlan& plan, model::UnitSystem units) {
  switch (plan.need) {
    case solver::PrimeNeed::FillsItself:
      return fmt::format(
          "No point of this line stands above the water of {} it starts from ({}): it needs no "
          "priming and fills by itself.",
          quoted(plan.names.source),
          spoken_level(plan.course.source_m, units));
    case solver::PrimeNeed::ByHand:
      return holds_words(plan, units);
    case solver::PrimeNeed::CannotHold:
      break;
  }
  return fmt::format(
      "Do not {} it as it is: {}",
      plan.course.fills_itself() ? "fill" : "prime",
      std::visit([&](const auto& refusal) { return reason_of(refusal, plan, units); },
                 *plan.refusal));
}

std::vector<model::Diagnostic> prime_problems(const model::Farm& farm, const PrimePlan& plan) {
  if (!plan.problem) {
    return plan.problems;
  }
  Told words = std::visit([](const auto& problem) { return told(problem); }, *plan.problem);
  model::Diagnostic made;
  made.code = words.code;
  made.file = farm.file;
  made.text = std::move(words.text);
  made.hint = std::move(words.hint);
  return {std::move(made)};
}

}  // namespace leat::render
