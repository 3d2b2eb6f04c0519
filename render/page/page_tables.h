// Who gets what, as tables a page shows and a screen reader reads.
#pragma once

#include <optional>

#include "model/farm/farm.h"
#include "render/document/json_text.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// A farm and its answer, which has converged. Borrowed.
struct SolvedFarm {
  const model::Farm& farm;
  const solver::SteadyAnswer& answer;
};

/// Tables [{caption, columns, rows [{name, alarm, cells, was}]}]: `was` holds the cells of the farm
/// as saved, null where it is not given or has no such place. Figures in `units`, as on the screen
/// of `leat solve`.
[[nodiscard]] Json page_tables(const SolvedFarm& now,
                               const std::optional<SolvedFarm>& saved,
                               model::UnitSystem units);

}  // namespace leat::render
