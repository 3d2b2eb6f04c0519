// What is told of a pump and of a ram in a moment's answer.
#pragma once

#include <vector>

#include "render/document/columns.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// The pumps, or the rams, of an answer in the farm's order; none in case static.
[[nodiscard]] std::vector<solver::LifterAnswer> pumps_of(const solver::SteadyAnswer& answer);
[[nodiscard]] std::vector<solver::LifterAnswer> rams_of(const solver::SteadyAnswer& answer);

[[nodiscard]] const Columns<solver::LifterAnswer>& pump_columns();
[[nodiscard]] const Columns<solver::LifterAnswer>& ram_columns();

}  // namespace leat::render
