// What is told of a change that was solved: what it does, whom it helps and how much.
#pragma once

#include <cstddef>
#include <vector>

#include "render/document/columns.h"
#include "solver/improve/improve.h"

namespace leat::render {

struct RankedChangeRow {
  const solver::SolvedChange& change;
  std::size_t rank = 1;
};

/// Best first.
[[nodiscard]] std::vector<RankedChangeRow> ranked_change_rows(const solver::ImprovePlan& plan);

[[nodiscard]] const Columns<RankedChangeRow>& ranked_change_columns();
/// Two changes made together.
[[nodiscard]] const Columns<solver::SolvedChange>& pair_columns();
[[nodiscard]] const Columns<solver::SmallChange>& small_change_columns();

}  // namespace leat::render
