// Which changes of a large farm are worth solving: those that the sensitivities rank highest.
#pragma once

#include <cstddef>
#include <vector>

#include "solver/flow/flow_state.h"
#include "solver/improve/change.h"
#include "solver/improve/possible_changes.h"

namespace leat::solver {

/// What each change may gain [m3/s at the place of the aim, no more than it misses, with a little
/// for water gained elsewhere], in the order of `changes`. The farm answers to first order; the law
/// of the pipe that is changed is followed all the way, and a valve or a tank may hold back all
/// that runs there. Infinite for what is cheap to try and no derivative tells of: seats, stores,
/// hours, levels, a valve opened, a check on a still pipe, tanks where no water comes. Where no
/// derivative is known (a ram), the power lost in a pipe stands for it.
[[nodiscard]] std::vector<double> estimated_gains(const ChangeAim& aim,
                                                  const FlowState& state,
                                                  const std::vector<Change>& changes);

/// Indexes of the `most` changes with the highest estimates, in the order of `changes`.
[[nodiscard]] std::vector<std::size_t> most_promising(const std::vector<double>& estimates,
                                                      std::size_t most);

}  // namespace leat::solver
