// The numbers of a farm file that may be wrong, each with how wrong (measurement_error.h).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/uncertainty/farm_input.h"

namespace leat::solver {

/// An input with its error: the standard deviation of `amount` in set_input, m for a level, else of
/// the logarithm.
struct UncertainInput {
  FarmInput input;
  std::string name;
  double deviation = 0.0;
};

/// Every input of the farm that is drawn, in the order of the file. The levels of one survey are
/// taken as independent of one another.
[[nodiscard]] std::vector<UncertainInput> uncertain_inputs(const model::Farm& farm,
                                                           std::optional<model::Month> month);

/// The same for a season, and behind them what matters over time only: what stock drink from a
/// pond. `month` is the first one's. A draw is the same farm as that of `uncertain_inputs`.
[[nodiscard]] std::vector<UncertainInput> season_inputs(const model::Farm& farm,
                                                        std::optional<model::Month> month);

}  // namespace leat::solver
