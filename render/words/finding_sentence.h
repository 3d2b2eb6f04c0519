// The sentence of a finding.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/answer/finding.h"

namespace leat::render {

/// One sentence without its full stop, amounts in `units`: "north trough gets nothing of the ...".
[[nodiscard]] std::string sentence_of(const solver::Finding& finding, model::UnitSystem units);

}  // namespace leat::render
