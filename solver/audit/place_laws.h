// The conditions of places: springs, tanks, floats, outlets, surfaces.
#pragma once

#include "solver/audit/checker.h"

namespace leat::solver::audit {

/// Checks every place of an answer with flow; the flows at the pipes' ends must be known.
void check_places(Case& audited);

}  // namespace leat::solver::audit
