// Which month to solve when none is asked for.
#pragma once

#include <optional>

#include "model/farm/farm.h"

namespace leat::solver {

/// The month with the least sum of spring yields and creek flows, the first of equals; where those
/// do not change with the month, the month of greatest need; none where nothing does.
[[nodiscard]] std::optional<model::Month> driest_month(const model::Farm& farm);

/// Whether anything that `solve` reads changes with the month.
[[nodiscard]] bool depends_on_month(const model::Farm& farm);

}  // namespace leat::solver
