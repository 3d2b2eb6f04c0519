// What a trough needs: a rate, an amount a day over its hours, or what its herd drinks.
#pragma once

#include <optional>

#include "model/farm/farm.h"

namespace leat::model {

/// The mean rate a trough needs over its hours in the given month: the rate itself, or the day's
/// amount over `within`. Empty where no need was given. Without a month a herd drinks by the summer
/// row where the air changes with the month. Throws std::logic_error for an animal that
/// `find_animal` does not know: the loader has refused it.
[[nodiscard]] std::optional<Flow> need_rate(const Trough& trough,
                                            const std::optional<MonthSeries<Temperature>>& air,
                                            std::optional<Month> month);

/// Whether that need changes with the month (a month map, or a herd with air temperatures).
[[nodiscard]] bool need_varies(const Trough& trough,
                               const std::optional<MonthSeries<Temperature>>& air);

}  // namespace leat::model
