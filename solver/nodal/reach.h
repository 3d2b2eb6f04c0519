// Which nodes some supply can reach, following the direction an edge allows.
#pragma once

#include <vector>

#include "solver/nodal/problem.h"

namespace leat::nodal {

/// One truth a node: whether a fixed head, a store, an unbalanced inflow or a limited supply can
/// reach it through edges that are not closed, one-way kinds along their direction only.
[[nodiscard]] std::vector<bool> nodes_reached(const Problem& problem);

}  // namespace leat::nodal
