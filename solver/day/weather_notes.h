// What a season's weather and ground leave open.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/season_note.h"

namespace leat::solver {

/// Whether the pond's shape is known, so that a season fills and empties it.
[[nodiscard]] bool has_shape(const model::Pond& pond);

/// Whether any animal of the farm drinks more when it is warm, as far as the catalogue knows.
[[nodiscard]] bool drinks_by_warmth(const model::Farm& farm);

/// How evaporation, rain, runoff, seepage and what stock drink were reckoned between two dates, and
/// on how many days nothing told of them.
[[nodiscard]] std::vector<SeasonNote> weather_notes(const model::Farm& farm,
                                                    model::Date from,
                                                    model::Date to);

}  // namespace leat::solver
