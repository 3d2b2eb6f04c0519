#include <fmt/format.h>

#include "render/words/finding_themes.h"

namespace leat::render {

namespace {

std::string air_point_words(const FindingTold& told, const solver::TrappedAir& detail) {
  const std::string level = told.level(detail.high.elevation_m);
  return detail.high_tee ? fmt::format("{} ({})", *detail.high_tee, level)
                         : fmt::format("the high point of {} at {} ({})",
                                       detail.high_pipe,
                                       told.length(detail.high.at_m),
                                       level);
}

std::string lock_words(const FindingTold& told, const solver::TrappedAir::Lock& lock) {
  const bool starts = lock.fall_m > lock.lifted_m;
  const std::string lifted = told.length(lock.lifted_m);
  const std::string fall = told.length(lock.fall_m);
  return starts ? fmt::format(
                      ". Filled from its upper end with nothing opened, trapped air can hold "
                      "back {} of water out of a fall of {}",
                      lifted,
                      fall)
                : fmt::format(
                      ". Filled from its upper end with nothing opened, trapped air can hold "
                      "back {} of water, but the fall is only {}: it does not start",
                      lifted,
                      fall);
}

}  // namespace

std::string sentence(const FindingTold& told, const solver::TrappedAir& detail) {
  const bool stays = told.finding().code == solver::Code::AirStays;
  return fmt::format(
      "{} at {}: in {} the water runs down from there at {}{}, and {} is needed to sweep air "
      "out{}. "
      "Bleed it there{}{}",
      stays ? "air stays" : "it is doubtful whether air is swept out",
      air_point_words(told, detail),
      told.where(),
      told.velocity(told.value()),
      detail.at_an_average ? ", a day's average (--case wide shows it with the floats open)" : "",
      told.velocity(detail.swept_above_m_s),
      detail.steeper_than_tested ? " (it falls more steeply than anybody has tested)" : "",
      detail.in_suction
          ? " by hand with the line stopped; a vent there would let air in, since it runs in "
            "suction"
          : "",
      detail.lock ? lock_words(told, *detail.lock) : "");
}

}  // namespace leat::render
