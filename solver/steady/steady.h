// Room: one moment of a farm: flows and findings of every load case.
//
// Steady flow: a farm in, heads, flows, states and flags out.
#pragma once

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/flow/flow_state.h"
#include "solver/flow/warm_cases.h"

namespace leat::solver {

/// Solves the farm for one load case and month.
/// Never throws for what a farm file can hold: where there is no answer, `converged` is false and
/// `problems` says why (an unknown trough for `broken`, a key of a later capability, no balance).
[[nodiscard]] SteadyAnswer solve_steady(const model::Farm& farm, const SteadyOptions& options);

/// As `solve_steady`, for a farm that is that of `warm` with a change: its first places and pipes
/// are the same. Solved from the answer there is.
[[nodiscard]] SteadyAnswer solve_steady_from(WarmCases& warm,
                                             const model::Farm& farm,
                                             const SteadyOptions& options);

/// An answer beside the network it was read from, for studies that look along the pipes.
struct SteadyState {
  SteadyAnswer answer;
  FlowState flow;  // of the last round; without a network where the answer has not converged
};

/// As `solve_steady`, with the network kept. `flow` points to `farm`, which must outlive it.
[[nodiscard]] SteadyState solve_steady_state(const model::Farm& farm, const SteadyOptions& options);

}  // namespace leat::solver
