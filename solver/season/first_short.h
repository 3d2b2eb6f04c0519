// Which trough first goes short as one spring falls.
#pragma once

#include <optional>
#include <string>

#include "model/farm/farm.h"
#include "solver/answer/season_answer.h"

namespace leat::solver {

/// Lowers the yield of the spring `options.until_dry` and fills `answer.first_short`, in order of
/// falling yield. The farm stands in the middle of its driest month in steady flow, tanks at the
/// level they settle at; where tanks or troughs hold water needs are the day's mean, else those of
/// the drinking hours. The spring must be one of the farm's.
void find_first_short(const model::Farm& farm, const SeasonOptions& options, SeasonAnswer& answer);

/// Nothing where a spring has that name.
[[nodiscard]] std::optional<SeasonProblem> spring_problem(const model::Farm& farm,
                                                          const std::string& name);

}  // namespace leat::solver
