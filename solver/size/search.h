// Sizes by trying: narrower wherever the real farm still does what is wanted, until nothing helps.
#pragma once

#include <cstddef>
#include <vector>

#include "solver/size/trials.h"

namespace leat::solver {

/// Which sizes of the list (by index, narrowest first) each run may have.
using AllowedSizes = std::vector<std::vector<std::size_t>>;

/// Widens runs from the given sizes until the farm does what is wanted, then narrows: one run at a
/// time to the size that saves most, and one wider where that lets another be narrower. Ends where
/// no such step saves, or after `most_trials` solves in all.
[[nodiscard]] Trial searched(Trials& trials,
                             const AllowedSizes& allowed,
                             std::vector<std::size_t> start,
                             int most_trials);

/// Lays the end of one run after the other in the next size that costs less, as far as the farm
/// bears it (to a fiftieth of the run).
[[nodiscard]] Trial in_two_sizes(
    Trials& trials, const PipeList& list, const AllowedSizes& allowed, Trial best, int most_trials);

}  // namespace leat::solver
