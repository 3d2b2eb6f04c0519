// Findings as JSON, the same in every command's object.
#pragma once

#include "render/json_text.h"
#include "solver/steady_answer.h"

namespace leat::render {

/// The answer's flags as a list (keys: OUTPUT.md).
[[nodiscard]] Json flag_list(const solver::SteadyAnswer& answer);

}  // namespace leat::render
