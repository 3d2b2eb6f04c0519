// Room: a farm carried through dates step by step: what each place got, what went short and why.
// A season: the farm's stores filled and emptied step by step through dates, weather and drinking.
#pragma once

#include <functional>

#include "model/farm/farm.h"
#include "solver/answer/season_answer.h"

namespace leat::solver {

/// Called now and then with the share of the season done (0 to 1); returns false to stop.
using Progress = std::function<bool(double share)>;

/// Runs the farm from `options.from` to `options.to`. Never throws for what a farm file can hold:
/// where there is no answer, `converged` is false and `problems` says why.
[[nodiscard]] SeasonAnswer run_season(const model::Farm& farm,
                                      const SeasonOptions& options,
                                      const Progress& progress = {});

}  // namespace leat::solver
