// Steady flow: a farm in, heads, flows, states and flags out.
#pragma once

#include "model/farm.h"
#include "solver/steady_answer.h"

namespace leat::solver {

/// Solves the farm for one load case and month.
/// Never throws for what a farm file can hold: where there is no answer, `converged` is false and
/// `problems` says why (an unknown trough for `broken`, a key of a later capability, no balance).
[[nodiscard]] SteadyAnswer solve_steady(const model::Farm& farm, const SteadyOptions& options);

}  // namespace leat::solver
