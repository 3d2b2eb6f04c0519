// What is drunk and used in a day below a place: what a tank there must be fed with.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"

namespace leat::solver {

/// A day's amount of one trough or outlet [m3], none where no need or wish is given.
[[nodiscard]] std::optional<double> day_amount_m3(const model::Farm& farm,
                                                  const model::Place& place,
                                                  std::optional<model::Month> month);

/// The place and all places that pipes out of it lead to, as the pipes are written and valves
/// stand, through tees and further tanks; by index into the farm's places.
[[nodiscard]] std::vector<std::size_t> places_below(const model::Farm& farm, std::size_t place);

/// Days' amounts of all troughs and outlets among `places_below` [m3].
[[nodiscard]] double day_below_m3(const model::Farm& farm,
                                  std::size_t place,
                                  std::optional<model::Month> month);

}  // namespace leat::solver
