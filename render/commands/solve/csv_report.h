// Answers as CSV: the JSON's keys as the heading line, SI, empty for what is absent. Figures are
// rounded here, and nowhere but here and in tables.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "render/document/csv_text.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

[[nodiscard]] std::string places_csv(const model::Farm& farm, const solver::SteadyAnswer& answer);
/// `summit` is flattened to summit_at_m ... summit_parted; `summits` is left out.
[[nodiscard]] std::string pipes_csv(const model::Farm& farm, const solver::SteadyAnswer& answer);
[[nodiscard]] std::string flags_csv(const std::vector<solver::Finding>& findings,
                                    model::UnitSystem units);

}  // namespace leat::render
