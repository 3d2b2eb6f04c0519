// What pumps and rams are and do, a sentence each.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "render/document/text_table.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// What each pump and ram does in an answer, and that a pump's share holds for the hours it runs.
/// Empty without pumps and rams, and where everything is shut.
[[nodiscard]] std::string lifters_text(const model::Farm& farm,
                                       const solver::SteadyAnswer& answer,
                                       model::UnitSystem units,
                                       int width);

/// What the file says about each pump and ram. Empty without them.
[[nodiscard]] std::string lifters_read_text(const model::Farm& farm,
                                            model::UnitSystem units,
                                            int width);

}  // namespace leat::render
