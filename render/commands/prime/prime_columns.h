// What is told of the line that is primed: its legs, the steps, the air of its falling legs.
#pragma once

#include <cstddef>
#include <vector>

#include "model/farm/farm.h"
#include "render/document/columns.h"
#include "solver/prime/prime.h"

namespace leat::render {

struct PrimeLegRow {
  const model::Farm& farm;
  const solver::PrimeLeg& leg;
};

struct PrimeStepRow {
  const solver::PrimePlan& plan;
  std::size_t index = 0;
  model::UnitSystem units = model::UnitSystem::Metric;  // of its sentence

  [[nodiscard]] const solver::PrimeStep& step() const { return plan.steps[index]; }
};

struct FallingLegRow {
  const model::Farm& farm;
  const solver::FallingLeg& leg;
};

[[nodiscard]] std::vector<PrimeLegRow> prime_leg_rows(const model::Farm& farm,
                                                      const solver::PrimePlan& plan);
[[nodiscard]] std::vector<PrimeStepRow> prime_step_rows(const solver::PrimePlan& plan,
                                                        model::UnitSystem units);
[[nodiscard]] std::vector<FallingLegRow> falling_leg_rows(const model::Farm& farm,
                                                          const solver::PrimePlan& plan);

[[nodiscard]] const Columns<PrimeLegRow>& prime_leg_columns();
[[nodiscard]] const Columns<PrimeStepRow>& prime_step_columns();
[[nodiscard]] const Columns<FallingLegRow>& falling_leg_columns();

}  // namespace leat::render
