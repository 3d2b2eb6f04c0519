#include "render/words/prime_filling.h"

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/prime_names.h"
#include "render/words/quoted.h"

namespace leat::render {

std::string sentence_of(const solver::priming::KeepBranchShut& step,
                        const solver::PrimePlan& /*plan*/,
                        model::UnitSystem /*units*/) {
  using How = solver::priming::KeepBranchShut::How;
  const std::string name = quoted(step.branch.pipe);
  const std::string tee = quoted(step.branch.tee);
  const std::string far_end = quoted(step.far_end);
  const auto keep = [&](const std::string& where) {
    return fmt::format(
        "Keep {}, which leaves {}, shut {} until the line is full.", name, tee, where);
  };
  switch (step.how) {
    case How::AtItsValve:
      return keep("at its valve");
    case How::AtItsFarEnd:
      return keep("at " + far_end);
    case How::FillsAlong:
      return fmt::format(
          "{} leaves {} and has no valve: it fills along with the line. Keep shut "
          "what takes water beyond {}.",
          name,
          tee,
          far_end);
    case How::BringsWater:
      break;
  }
  return fmt::format(
      "What comes in at {} through {} helps to fill the line: hold it back at "
      "{} if it is too much.",
      tee,
      name,
      far_end);
}

std::string sentence_of(const solver::priming::OpenBeforeWater& step,
                        const solver::PrimePlan& /*plan*/,
                        model::UnitSystem units) {
  return fmt::format("Before any water is let in, open {}{}.{}",
                     high_point_words("the high point", step.point, units),
                     step.is_first ? "" : " as well",
                     step.is_first ? " If there is no opening there, fit a tee with a plug or a "
                                     "hand valve first."
                                   : "");
}

std::string sentence_of(const solver::priming::LetWaterIn& step,
                        const solver::PrimePlan& plan,
                        model::UnitSystem units) {
  const std::string how = step.at_most_m3_s
                              ? fmt::format("so far that no more than {} can run ({} in the pipe)",
                                            solver::spoken_flow(*step.at_most_m3_s, units),
                                            filling_speed(step.velocity_m_s, units))
                              : std::string("fully: by itself it runs slowly enough");
  return fmt::format("At {} open the end of {} {}. Let {} run into {}.",
                     quoted(plan.names.end),
                     quoted(plan.names.last_pipe),
                     how,
                     quoted(plan.names.source),
                     quoted(plan.names.first_pipe));
}

std::string sentence_of(const solver::priming::CloseHighPoint& step,
                        const solver::PrimePlan& /*plan*/,
                        model::UnitSystem units) {
  return fmt::format("When water without bubbles runs out at {}, close it.",
                     high_point_words("the high point", step.point, units));
}

std::string sentence_of(const solver::priming::LetItRunFull& step,
                        const solver::PrimePlan& plan,
                        model::UnitSystem units) {
  return fmt::format(
      "The line holds {}: at {} it is full after {} or more. When water runs evenly "
      "at {}, without spitting, set the end as far open as you want it.",
      solver::spoken_volume(plan.course.volume_m3, units),
      solver::spoken_flow(step.rate_m3_s, units),
      solver::spoken_time(step.fill_s),
      quoted(plan.names.end));
}

}  // namespace leat::render
