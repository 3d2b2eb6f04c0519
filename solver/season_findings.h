// What a season's sums mean: why a trough went short, how long a tank carries the farm, flags.
#pragma once

#include <vector>

#include "model/farm.h"
#include "solver/farm_stores.h"
#include "solver/season_answer.h"
#include "solver/season_books.h"
#include "solver/season_steps.h"

namespace leat::solver {

/// Fills in reasons, day patterns, days alone and flags of an answer whose sums stand.
void find_season_findings(const model::Farm& farm,
                          const FarmStores& stores,
                          const SeasonOptions& options,
                          const SeasonBooks& books,
                          const std::vector<StoppedLine>& stopped,
                          SeasonAnswer& answer);

}  // namespace leat::solver
