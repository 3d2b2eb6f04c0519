#include <fmt/format.h>

#include "render/words/finding_themes.h"

namespace leat::render {

std::string sentence(const FindingTold& told, const solver::SiphonBreaks& detail) {
  return fmt::format(
      "{} draws down to its intake and lets air into {}; the high point of "
      "{} at {} stands {} above the intake, so the siphon breaks and does "
      "not start again by itself: throttle the outlet until it takes less "
      "than the yield",
      told.where(),
      detail.pipe,
      detail.high_pipe,
      told.length(detail.high_at_m),
      told.length(told.value()));
}

std::string sentence(const FindingTold& told, const solver::TeeDrawsAir& detail) {
  return fmt::format(
      "{} stands {} above the grade line of a full line and draws air in "
      "through {}, which stands open; solved again with air in {}. A one-way "
      "before {}, or its end closed, keeps the air out",
      told.where(),
      told.length(-told.value()),
      detail.open_end,
      told.where(),
      detail.open_end);
}

}  // namespace leat::render
