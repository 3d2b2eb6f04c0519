// Heads with everything shut: how high the still water stands in each stretch. Found by graph
// search, not by the solver.
#pragma once

#include <optional>
#include <vector>

#include "solver/network/network_of_farm.h"

namespace leat::solver {

/// Static head [m] of every node of the network: the highest surface (overflow, brim, creek, pond)
/// that can reach it with every outlet, float and end valve shut. One-ways are respected, a
/// regulator is taken as failed open, a break-pressure tank starts again at its brim, a vent with a
/// top spills there. Beyond a pump stands its shut-off head more; beyond a ram what it stalls at
/// (26 times its fall), or, where an end that nothing shuts lies behind it, that end's level. Empty
/// where no surface reaches.
[[nodiscard]] std::vector<std::optional<double>> static_heads_m(const model::Farm& farm,
                                                                const FarmNetwork& network,
                                                                std::optional<model::Month> month);

/// Highest static pressure of each pipe along its course [Pa gauge], with where it is.
struct StaticPressure {
  double pressure_Pa = 0.0;
  double at_m = 0.0;
  double elevation_m = 0.0;
  double head_m = 0.0;
};
[[nodiscard]] std::vector<std::optional<StaticPressure>> highest_static_pressures(
    const model::Farm& farm,
    const FarmNetwork& network,
    const Surroundings& surroundings,
    const std::vector<std::optional<double>>& heads_m);

}  // namespace leat::solver
