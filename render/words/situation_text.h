// What a drawing says of the moment it shows: datum, load case, month.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// "levels: doorstep = 50 m; load case: needs; month: Aug (the driest)", in words for a title.
[[nodiscard]] std::string situation_text(const model::Farm& farm,
                                         const solver::SteadyAnswer& answer);

}  // namespace leat::render
