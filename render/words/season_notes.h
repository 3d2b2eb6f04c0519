// What a season took for granted, in sentences.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/season_note.h"

namespace leat::render {

/// One note in one or a few sentences. Themes: weather.h, frost.h; here months and records.
[[nodiscard]] std::string season_note_text(const solver::SeasonNote& note, model::UnitSystem units);

/// All of them, in their order.
[[nodiscard]] std::vector<std::string> season_note_texts(
    const std::vector<solver::SeasonNote>& notes, model::UnitSystem units);

}  // namespace leat::render
