// The choice of sizes where the flows are known: straight lines first, then the real farm, limits
// tightened and weak sizes withdrawn where it falls short.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "solver/size/head_budget.h"
#include "solver/size/pipe_for_sale.h"
#include "solver/size/search.h"
#include "solver/size/size_choice.h"
#include "solver/size/trials.h"

namespace leat::solver {

/// What is sized, in which month, out of what list.
struct SizingTask {
  const model::Farm& farm;
  const std::vector<std::size_t>& runs;  // indexes of the pipes to be sized
  const PipeList& list;
  std::optional<model::Month> month;
};

/// The choice among sizes without any limit on head.
[[nodiscard]] SizeChoice choice_among(const SizingTask& task, const AllowedSizes& allowed);

/// What came of the straight-line choice.
struct TreeChoice {
  std::optional<Trial> sound;   // laid, solved, and doing what is wanted
  std::optional<Trial> fed;     // else the first that meets every need, with dangers it may have
  std::optional<double> bound;  // cost of the first choice: nothing sound is cheaper
  int tightenings = 0;          // 0: the first choice is sound, and so the cheapest there is
  SizeChoice choice;            // with its limits as they stood at the end ...
  AllowedSizes allowed;         // ... among these sizes
};

/// Sizes the runs of a farm whose tree of flows is known (all or at least).
[[nodiscard]] TreeChoice choose_in_tree(const SizingTask& task,
                                        const WaterTree& tree,
                                        const AllowedSizes& allowed,
                                        PartsOfRun parts,
                                        Trials& trials);

}  // namespace leat::solver
