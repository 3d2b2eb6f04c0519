// How long a tank lasts that gives more than comes in, in sentences.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// A sentence a tank that falls, behind an empty line; empty where none does, and in case static. A
/// moment's answer holds a tank's level: only this tells that it cannot last.
[[nodiscard]] std::string falling_tanks_text(const model::Farm& farm,
                                             const solver::SteadyAnswer& answer,
                                             model::UnitSystem units,
                                             int width);

}  // namespace leat::render
