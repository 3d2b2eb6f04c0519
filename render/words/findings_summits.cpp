#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/finding_themes.h"

namespace leat::render {

namespace {

std::string summit_place_words(const FindingTold& told, const solver::PipeSpot& summit) {
  return fmt::format("the summit of {} at {} ({})",
                     told.where(),
                     told.length(summit.at_m),
                     told.level(summit.elevation_m));
}

std::string lowering_advice(const FindingTold& told,
                            const solver::PipeSpot& summit,
                            double lowering_m) {
  return fmt::format(" lie {} or below",
                     solver::spoken_lowering(summit.elevation_m, lowering_m, told.units()));
}

}  // namespace

std::string sentence(const FindingTold& told, const solver::SummitParts& detail) {
  const char* const end = told.is_static() ? "The line does not stay primed"
                                           : "The flow given is an upper bound for minutes; the "
                                             "siphon stops";
  return fmt::format(
      "the water parts at {}{}: the pressure there falls to that of its "
      "vapour. {}{}",
      summit_place_words(told, detail.summit),
      detail.in_storm ? " when a storm lowers the air's pressure" : "",
      end,
      detail.lowering_m
          ? ". The summit would have to" + lowering_advice(told, detail.summit, *detail.lowering_m)
          : "");
}

std::string sentence(const FindingTold& told, const solver::SummitNearVapour& detail) {
  return fmt::format(
      "{} has {} left above the vapour limit: it will gas up and stop. It "
      "should{}",
      summit_place_words(told, detail.summit),
      told.length(told.value()),
      lowering_advice(told, detail.summit, told.limit() - told.value()));
}

std::string sentence(const FindingTold& told, const solver::SummitLowPressure& detail) {
  const double high_enough_m = detail.summit.elevation_m + told.value() - told.limit();
  return fmt::format(
      "{} runs at {} of water absolute: air comes out of the water there and "
      "gathers. At {} or below it would not",
      summit_place_words(told, detail.summit),
      told.length(told.value()),
      solver::spoken_level_at_most(high_enough_m, told.units()));
}

}  // namespace leat::render
