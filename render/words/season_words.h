// What a season comes to, in sentences that the table and the picture share.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

/// "1 h", "15 min", "1 day".
[[nodiscard]] std::string step_words(double step_s);

/// "north and south", "a, b and c", with the words before it as they are.
[[nodiscard]] std::string joined_names(const std::vector<std::string>& names);

/// The answer in one sentence: who goes short, the worst first, and from which day; or that all
/// have enough. "No trough needs water" where none has a need.
[[nodiscard]] std::string season_verdict(const model::Farm& farm,
                                         const solver::SeasonAnswer& answer);

/// "9 am" or "21:00", as people of those units write the hour (0 to 24).
[[nodiscard]] std::string clock_words(int hour, model::UnitSystem units);

/// What a day of its worst such month looks like at a trough that has enough in some hours and goes
/// short in later ones: "works in the morning, dry by 3 pm". Empty where no day looks like that, or
/// where hours are not told apart.
[[nodiscard]] std::string day_pattern(const model::Farm& farm,
                                      const solver::TroughSeason& trough,
                                      model::UnitSystem units);

/// The month in which least of a trough's need is met, the first of several; null without a need.
[[nodiscard]] const solver::MonthAtTrough* worst_month(const solver::TroughSeason& trough);

/// "full on 2026-06-03, 34 days after the start".
[[nodiscard]] std::string filled_words(const solver::SeasonAnswer& answer,
                                       const solver::PondSeason& pond);

}  // namespace leat::render
