// Why a trough or outlet goes short: the one cause that holds, with its figures.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/reason.h"
#include "solver/flow/flow_state.h"
#include "solver/flow/status_changes.h"

namespace leat::solver {

/// Why `place`, a trough or outlet, gets less than its need in a solved state; `broken` are the
/// siphons known to have broken. Of several causes the first that holds (METHOD.md).
[[nodiscard]] Reason why_short(const FlowState& state,
                               std::size_t place,
                               const std::vector<BrokenLine>& broken);

/// Whether a spring gives all it yields and its box has begun to draw down.
[[nodiscard]] bool is_exhausted(const FlowState& state, std::size_t place);

}  // namespace leat::solver
