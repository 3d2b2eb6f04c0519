// The key below the drawing: what fill, line, arrow and outline mean.
#pragma once

#include <string>

#include "model/farm/farm.h"

namespace leat::render {

/// Graphviz markup of the key. Holds text of our own only. `widest_flow` is the figure of the
/// widest line, empty when no water runs at all: the key then explains no more than the dashes.
[[nodiscard]] std::string legend_markup(model::UnitSystem units, const std::string& widest_flow);

}  // namespace leat::render
