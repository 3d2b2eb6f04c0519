// What is drunk and used in a day below a place: what a tank there must be fed with.
#pragma once

#include <cstddef>
#include <optional>

#include "model/farm.h"

namespace leat::solver {

/// A day's amount of one trough or outlet [m3], none where no need or wish is given.
[[nodiscard]] std::optional<double> day_amount_m3(const model::Farm& farm,
                                                  const model::Place& place,
                                                  std::optional<model::Month> month);

/// Days' amounts of all troughs and outlets that pipes out of the place lead to, as the pipes are
/// written and valves stand, through tees and further tanks [m3].
[[nodiscard]] double day_below_m3(const model::Farm& farm,
                                  std::size_t place,
                                  std::optional<model::Month> month);

}  // namespace leat::solver
