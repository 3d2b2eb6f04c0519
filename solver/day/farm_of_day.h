// The farm with one day's values in place of its months, so that everything that solves a moment of
// steady flow can be asked about a day.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "solver/day/day_values.h"
#include "solver/network/farm_stores.h"

namespace leat::solver {

/// Puts yields, levels and the water's temperature of a day into `farm`. Ponds among `stores` keep
/// their surface. True where more than a yield has changed, so that a network of the farm no longer
/// fits.
bool put_day(const DayValues& values, const FarmStores& stores, model::Farm& farm);

/// The farm at a moment of a season: stores held at `levels_m` (by index of the stores' laws),
/// every trough and outlet wanting `wanted_m3_s` (by place; troughs without a need stay so). A tank
/// down at its lowest mouth settles; a pond there stands a little below it.
[[nodiscard]] model::Farm farm_at(const model::Farm& farm,
                                  const DayValues& values,
                                  const FarmStores& stores,
                                  const std::vector<double>& levels_m,
                                  const std::vector<double>& wanted_m3_s);

}  // namespace leat::solver
