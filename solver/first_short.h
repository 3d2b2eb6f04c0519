// Which trough first goes short as one spring falls.
#pragma once

#include "model/farm.h"
#include "solver/season_answer.h"

namespace leat::solver {

/// Lowers the yield of the spring `options.until_dry` and fills `answer.first_short`, in order of
/// falling yield. An unknown spring is a problem of the answer.
void find_first_short(const model::Farm& farm, const SeasonOptions& options, SeasonAnswer& answer);

}  // namespace leat::solver
