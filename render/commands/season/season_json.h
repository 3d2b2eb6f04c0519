// A season's answer as JSON.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

/// The object of `leat season --json` (keys: OUTPUT.md), ending in a newline. An answer that did
/// not converge has null `balance`, empty lists and its `problems` at the end.
/// `units`: of the sentences.
[[nodiscard]] std::string season_json(const model::Farm& farm,
                                      const solver::SeasonAnswer& answer,
                                      model::UnitSystem units);

}  // namespace leat::render
