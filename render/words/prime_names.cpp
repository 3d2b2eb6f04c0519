#include "render/words/prime_names.h"

#include <cmath>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/quoted.h"

namespace leat::render {

std::string line_title(const model::Farm& farm, const solver::PrimePlan& plan) {
  std::string pipes;
  for (const std::size_t pipe : plan.course.line.pipes) {
    pipes += (pipes.empty() ? "" : ", ") + quoted(farm.pipes[pipe].name);
  }
  return fmt::format("{} {}, from {} to {}",
                     plan.pump ? "priming" : "filling",  // a line that fills by itself has none
                     pipes,
                     quoted(plan.names.source),
                     quoted(plan.names.end));
}

std::string high_point_words(const std::string& what,
                             const solver::priming::HighPoint& point,
                             model::UnitSystem units) {
  const std::string level = solver::spoken_level(point.elevation_m, units);
  if (point.tee) {
    return fmt::format("{} at {} ({})", what, quoted(*point.tee), level);
  }
  return fmt::format("{} of {} at {} ({})",
                     what,
                     quoted(point.pipe),
                     solver::spoken_length(point.at_m, units),
                     level);
}

std::string summit_words(const solver::PrimePlan& plan) {
  const solver::priming::HighPoint& summit = plan.names.summit;
  return std::string("the summit ") + (summit.tee ? "at " : "of ") + quoted(summit.where());
}

std::string shut_off_words(const std::vector<solver::priming::Branch>& branches) {
  std::string words;
  for (const solver::priming::Branch& branch : branches) {
    words += fmt::format("{}{} at {}",
                         words.empty() ? "shut off " : " and ",
                         quoted(branch.pipe),
                         quoted(branch.tee));
  }
  return words;
}

std::string filling_speed(double velocity_m_s, model::UnitSystem units) {
  // 0.3 m/s is a round figure, and its feet should be one too.
  const bool is_usual = std::abs(velocity_m_s - solver::fastest_filling_m_s) < 1e-6;
  return is_usual && units == model::UnitSystem::Us ? "1 ft/s"
                                                    : solver::spoken_velocity(velocity_m_s, units);
}

}  // namespace leat::render
