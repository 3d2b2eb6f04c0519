// What is found wrong over a season, in sentences.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// The sentence of a season's finding: of a flag whose `detail` is set.
[[nodiscard]] std::string season_finding_text(const solver::Flag& flag, model::UnitSystem units);

/// Writes the sentences of a season's findings into them, for what prints flags.
void put_season_texts(std::vector<solver::Flag>& flags, model::UnitSystem units);

}  // namespace leat::render
