// The cases a farm is solved for.
#pragma once

namespace leat::solver {

enum class LoadCase { Needs, Wide, Static };

[[nodiscard]] const char* word_of(LoadCase load_case);  // "needs", "wide", "static"

}  // namespace leat::solver
