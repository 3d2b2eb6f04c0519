// Answers as CSV (RFC 4180 with LF line ends): the JSON's keys as the heading line, SI, empty for
// what is absent. Figures are rounded here, and nowhere but here and in tables.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// One line of cells, quoted where they hold a comma, a quote or a line break.
[[nodiscard]] std::string csv_line(const std::vector<std::string>& cells);

[[nodiscard]] std::string places_csv(const model::Farm& farm, const solver::SteadyAnswer& answer);
/// `summit` is flattened to summit_at_m ... summit_parted; `summits` is left out.
[[nodiscard]] std::string pipes_csv(const model::Farm& farm, const solver::SteadyAnswer& answer);
[[nodiscard]] std::string flags_csv(const std::vector<solver::Finding>& findings,
                                    model::UnitSystem units);

}  // namespace leat::render
