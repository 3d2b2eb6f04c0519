// What a steady answer tells beside its figures, in sentences.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_note.h"

namespace leat::render {

/// One sentence a note, without a full stop, in their order.
[[nodiscard]] std::vector<std::string> steady_note_texts(
    const std::vector<solver::SteadyNote>& notes, model::UnitSystem units);

}  // namespace leat::render
