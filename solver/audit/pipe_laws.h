// The conditions of pipes: heads pay for flows, still water is level, limits hold.
#pragma once

#include "solver/audit/checker.h"

namespace leat::solver::audit {

/// Checks every pipe of an answer with flow; the flows at the pipes' ends must be known.
void check_pipes(Case& audited);

}  // namespace leat::solver::audit
