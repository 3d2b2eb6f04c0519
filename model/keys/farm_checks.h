// Whether the parts of a farm fit together: pipes meet their places, no place is an island.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/problem_list.h"

namespace leat::model {

/// A path and the place it meets may differ by so much [levels read with a hand level].
inline constexpr Length meeting_tolerance = metres(0.05);

/// Checks one pipe against the places it joins: its path meets levels that are fixed
/// (path-misses-place), its mouth is under water (intake-above-water), it is not shorter than its
/// own rise (pipe-too-short).
void check_pipe_meets_places(const Farm& farm, const Pipe& pipe, ProblemList& problems);

/// Two places joined otherwise than by a pipe: by a pump, or through a ram.
using Join = std::pair<std::size_t, std::size_t>;

/// Checks what is joined to what: a trough or outlet has exactly one pipe (no-pipe,
/// too-many-pipes), a tee at least one (no-pipe), and every place that water should reach is joined
/// to open water by pipes of whatever direction (island).
void check_connections(const Farm& farm, const std::vector<Join>& joins, ProblemList& problems);

}  // namespace leat::model
