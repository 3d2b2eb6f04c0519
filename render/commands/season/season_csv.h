// A season's answer as CSV: the JSON's keys as the heading line, SI, empty for what is absent.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

/// One row a trough and month, in the order of time; the last column is the month's year.
/// `units`: of the reasons.
[[nodiscard]] std::string season_troughs_csv(const model::Farm& farm,
                                             const solver::SeasonAnswer& answer,
                                             model::UnitSystem units);
/// One row a tank.
[[nodiscard]] std::string season_tanks_csv(const model::Farm& farm,
                                           const solver::SeasonAnswer& answer);
/// One row a pond, without its levels.
[[nodiscard]] std::string season_ponds_csv(const model::Farm& farm,
                                           const solver::SeasonAnswer& answer);
/// One row a day of each pond and tank: the level at midnight.
[[nodiscard]] std::string season_levels_csv(const model::Farm& farm,
                                            const solver::SeasonAnswer& answer);
/// One row: where all the water came from and went.
[[nodiscard]] std::string season_balance_csv(const solver::SeasonAnswer& answer);

}  // namespace leat::render
