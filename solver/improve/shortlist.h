// Which changes of a large farm are worth solving: those that the sensitivities rank highest.
#pragma once

#include <cstddef>
#include <vector>

#include "solver/flow_state.h"
#include "solver/improve/change.h"
#include "solver/improve/possible_changes.h"

namespace leat::solver {

/// What each change gains to first order [m3/s at the place of the aim, with a little for water
/// gained elsewhere], in the order of `changes`. Infinite for changes that no derivative tells of:
/// seats, stores, tanks, hours, a valve opened. Where the derivatives are not known or all are
/// nothing (a dry trough, a ram), the head lost in a pipe stands for what changing it is worth.
[[nodiscard]] std::vector<double> estimated_gains(const ChangeAim& aim,
                                                  const FlowState& state,
                                                  const std::vector<Change>& changes);

/// Indexes of the `most` changes with the highest estimates, in the order of `changes`.
[[nodiscard]] std::vector<std::size_t> most_promising(const std::vector<double>& estimates,
                                                      std::size_t most);

}  // namespace leat::solver
