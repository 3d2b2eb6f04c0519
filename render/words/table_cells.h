// Figures as they stand in the cells of a table: "-" where there is none.
#pragma once

#include <optional>
#include <string>

#include "model/quantity/quantity.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// A flow [m3/s] in the units' flow figure; a still one is 0.
[[nodiscard]] std::string flow_cell(std::optional<double> flow_m3_s, model::UnitSystem units);
[[nodiscard]] std::string level_cell(std::optional<double> level_m, model::UnitSystem units);
[[nodiscard]] std::string pressure_cell(std::optional<double> pressure_Pa, model::UnitSystem units);

/// "82 %": rounded down below 1, so that nothing that falls short reads 100 %.
[[nodiscard]] std::string share_cell(std::optional<double> share);

}  // namespace leat::render
