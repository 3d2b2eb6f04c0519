// What is told of a change that was solved: what it does, whom it helps and how much.
#pragma once

#include <cstddef>
#include <vector>

#include "render/document/columns.h"
#include "solver/improve/improve.h"

namespace leat::render {

// `units` are those of the sentences.

struct RankedChangeRow {
  const model::Farm& farm;
  const solver::SolvedChange& change;
  std::size_t rank = 1;
  model::UnitSystem units = model::UnitSystem::Metric;
};

/// Two changes made together.
struct PairRow {
  const solver::SolvedChange& pair;
  model::UnitSystem units = model::UnitSystem::Metric;
};

struct SmallChangeRow {
  const model::Farm& farm;
  const solver::SmallChange& change;
  model::UnitSystem units = model::UnitSystem::Metric;
};

/// Best first.
[[nodiscard]] std::vector<RankedChangeRow> ranked_change_rows(const model::Farm& farm,
                                                              const solver::ImprovePlan& plan,
                                                              model::UnitSystem units);
/// Largest first.
[[nodiscard]] std::vector<SmallChangeRow> small_change_rows(const model::Farm& farm,
                                                            const solver::ImprovePlan& plan,
                                                            model::UnitSystem units);

[[nodiscard]] const Columns<RankedChangeRow>& ranked_change_columns();
[[nodiscard]] const Columns<PairRow>& pair_columns();
[[nodiscard]] const Columns<SmallChangeRow>& small_change_columns();

}  // namespace leat::render
