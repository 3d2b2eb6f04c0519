#include "render/words/finding_sentence.h"

#include <variant>

#include "render/words/finding_themes.h"

namespace leat::render {

std::string sentence_of(const solver::Finding& finding, model::UnitSystem units) {
  const FindingTold told(finding, units);
  return std::visit([&told](const auto& detail) { return sentence(told, detail); }, finding.detail);
}

}  // namespace leat::render
