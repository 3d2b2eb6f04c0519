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
[[nodiscard]] std::string length_cell(std::optional<double> length_m, model::UnitSystem units);
[[nodiscard]] std::string pressure_cell(std::optional<double> pressure_Pa, model::UnitSystem units);
[[nodiscard]] std::string velocity_cell(std::optional<double> velocity_m_s,
                                        model::UnitSystem units);
[[nodiscard]] std::string volume_cell(std::optional<double> volume_m3, model::UnitSystem units);
/// With two decimals, in the money of the file's prices.
[[nodiscard]] std::string money_cell(std::optional<double> money, model::UnitSystem units);

/// Per cent of a need met: rounded down below the limit of "starved", so that nothing that falls
/// short reads 100; "-" without a need.
[[nodiscard]] std::string percent_text(const std::optional<double>& met);
/// "82 %", or "-".
[[nodiscard]] std::string share_cell(const std::optional<double>& met);
/// The same in any units.
[[nodiscard]] std::string share_of_need_cell(std::optional<double> met, model::UnitSystem units);

}  // namespace leat::render
