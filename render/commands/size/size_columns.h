// What is told of a choice of pipe: the parts of each run, the water it brings, what troughs and
// tanks must hold.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "render/commands/solve/answer_columns.h"
#include "render/document/columns.h"
#include "solver/size/size.h"

namespace leat::render {

struct SizedRunRow {
  const model::Farm& farm;
  const solver::SizedRun& run;
};

/// One part of a run.
struct SizedPartRow {
  const model::Farm& farm;
  const solver::SizedRun& run;
  std::size_t index = 0;

  [[nodiscard]] const solver::SizedPart& part() const { return run.parts[index]; }
};

struct StoreRuleRow {
  const solver::SizePlan& plan;
  const solver::StoreRule& rule;

  [[nodiscard]] const model::Place& place() const { return plan.laid.places[rule.place]; }
};

[[nodiscard]] std::vector<SizedRunRow> sized_run_rows(const model::Farm& farm,
                                                      const solver::SizePlan& plan);
/// Of all runs, one after the other.
[[nodiscard]] std::vector<SizedPartRow> sized_part_rows(const model::Farm& farm,
                                                        const solver::SizePlan& plan);
[[nodiscard]] std::vector<StoreRuleRow> store_rule_rows(const solver::SizePlan& plan);
/// The places that need water, in the farm with the sizes in it.
[[nodiscard]] std::vector<PlaceRow> needing_place_rows(const solver::SizePlan& plan);

[[nodiscard]] const Columns<SizedPartRow>& sized_part_columns();
[[nodiscard]] const Columns<SizedRunRow>& sized_run_columns();
[[nodiscard]] const Columns<StoreRuleRow>& store_rule_columns();
/// Name, what it gets, what it needs.
[[nodiscard]] const Columns<PlaceRow>& needing_place_columns();

}  // namespace leat::render
