// What pipe to lay: the sizes of the runs marked `size: choose`, at least cost; and how much a
// trough or tank must hold.
#pragma once

#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/size/laid_farm.h"
#include "solver/size/size_note.h"
#include "solver/size/store_rules.h"

namespace leat::solver {

struct SizeOptions {
  std::optional<model::Month> month;       // the driest when absent
  std::optional<model::UnitSystem> units;  // of the flags' sentences
  bool one_size = false;                   // one size a run, none in two
};

struct SizedPart {
  model::PipeSize size;
  double length_m = 0.0;
  std::optional<double> cost;  // of what is bought; empty without prices
};

struct SizedRun {
  std::size_t pipe = 0;
  std::vector<SizedPart> parts;  // in the order of the run, from its `from` end
};

/// Exact: no cheaper choice does. Improved: a good choice found by trying, no more is known of it
/// than that nothing costs less than the bound.
enum class SizeMethod { Exact, Improved };

struct SizePlan {
  std::vector<SizedRun> runs;
  std::optional<double> cost;   // of all pipe bought; empty without prices
  std::optional<double> bound;  // no choice that meets the needs costs less; empty without prices
  SizeMethod method = SizeMethod::Improved;
  bool meets_needs = true;            // some size of the list, laid everywhere, meets every need
  SteadyAnswer answer;                // of the laid farm, all load cases judged
  model::Farm laid;                   // the farm with its sizes in it
  std::vector<StoreRule> stores;      // what troughs and tanks must hold, by rule
  std::vector<SizeNote> notes;        // what was taken, tried, found
  std::vector<SizeRefusal> refusals;  // why there is no plan,
  std::vector<model::Diagnostic> problems;  // ... or why no choice could be solved
};

/// Chooses the sizes so that every need is met in the month, ratings hold, no summit comes near
/// vapour, and in the needs case no run is faster than `fast_velocity_m_s`; what even the widest
/// pipe cannot reach is asked for only as far as that reaches. The plan is always solved as a farm
/// before it is given. METHOD.md "Sizing".
[[nodiscard]] SizePlan size_plan(const model::Farm& farm, const SizeOptions& options);

}  // namespace leat::solver
