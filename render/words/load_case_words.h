// What a load case is, in words.
#pragma once

#include <string_view>

#include "solver/answer/steady_answer.h"

namespace leat::render {

/// As a heading says it: "case wide: every float wide open, every open end running".
[[nodiscard]] std::string_view heading_of(solver::LoadCase load_case);

/// Behind a finding: "with every float wide open".
[[nodiscard]] std::string_view meaning_of(solver::LoadCase load_case);

}  // namespace leat::render
