// Whether one solver, made for one problem, serves another.
#pragma once

#include "solver/nodal/problem.h"

namespace leat::nodal {

/// Whether two problems have the same nodes (sought, held, with a store) and the same edges (kinds,
/// ends, closed), as NodalSolver asks of the problems it is given one after another.
[[nodiscard]] bool have_one_pattern(const Problem& a, const Problem& b);

}  // namespace leat::nodal
