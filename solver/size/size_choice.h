// The choice of pipe sizes as arithmetic: runs of given length and flow, sizes with the head each
// costs, limits on the head that may be spent on the way to somewhere. Numbers only.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "solver/size/linear_program.h"

namespace leat::solver {

/// One size a run may be laid in. Loss and cost are those of the whole run in it; a part of the run
/// has its share of both.
struct SizeOption {
  std::size_t size = 0;        // which pipe of the list (SizeChoice::stock_m and the caller's)
  std::optional<double> cost;  // bought for the whole run; empty: not for sale, stock only
};

struct SizeRun {
  double length_m = 0.0;
  std::vector<SizeOption> options;  // at least one
};

/// Head that the runs may spend on the way to one point: sum of loss * share laid <= available_m.
struct HeadLimit {
  struct Spent {
    std::size_t run = 0;
    std::vector<double> loss_m;  // by option of the run, of the whole run
  };
  double available_m = 0.0;  // fixed pipes' losses taken off
  std::vector<Spent> spent;
};

enum class PartsOfRun { OneSize, TwoSizes };

struct SizeChoice {
  std::vector<SizeRun> runs;
  std::vector<HeadLimit> limits;
  std::vector<double> stock_m;  // by size: what lies in store and costs nothing
};

/// Share of each run laid in each of its options (0 to 1, sum 1), and what it costs.
struct ChosenSizes {
  ProgramEnding ending = ProgramEnding::Failed;
  double cost = 0.0;
  std::vector<std::vector<double>> share;  // by run, by option
};

/// The least cost over all choices: lengths of each size in each run by the simplex method (more
/// than one size a run allowed), or one size a run by branch and bound. The optimum is exact for
/// losses that go with length. A run gets a third size only where stock runs out in it or costs
/// tie.
[[nodiscard]] ChosenSizes choose_sizes(const SizeChoice& choice, PartsOfRun parts);

}  // namespace leat::solver
