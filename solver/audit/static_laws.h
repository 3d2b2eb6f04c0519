// The conditions of standing water, with every end shut.
#pragma once

#include "solver/audit/checker.h"

namespace leat::solver::audit {

/// Checks an answer of the load case `static`.
void check_static(Case& audited);

}  // namespace leat::solver::audit
