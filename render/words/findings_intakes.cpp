#include <algorithm>

#include <fmt/format.h>

#include "render/words/finding_themes.h"

namespace leat::render {

std::string sentence(const FindingTold& told, const solver::ShallowMouth& detail) {
  return fmt::format(
      "{} draws from {} at {} under {} of water; its mouth needs {} over it, "
      "or a whirl draws air in: lay it deeper, or give it a wider mouth",
      told.where(),
      detail.draws_from,
      told.velocity(detail.velocity_m_s),
      told.length(std::max(0.0, told.value())),
      told.length(told.limit()));
}

std::string sentence(const FindingTold& told, const solver::SiltInDip& detail) {
  return fmt::format(
      "{} never runs faster than {}, and silt settles in its dip "
      "at {} ({}): a drain there washes it out",
      told.where(),
      told.velocity(told.value()),
      told.length(detail.dip.at_m),
      told.level(detail.dip.elevation_m));
}

}  // namespace leat::render
