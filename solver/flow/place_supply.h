// What a moment's answer alone does not show of a place that gives water: what it has to give, and
// how long a tank lasts that gives more than it is fed.
#pragma once

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"

namespace leat::solver {

/// A tank that gives no more than this beyond what it is fed stands where it is [m3/s]: 0.06 L/min.
inline constexpr double least_fall_m3_s = 1e-6;

/// Fills `has_to_give`, `stands` and `lasts` of the places of an answer to the case and month it
/// names. In case static nothing falls.
void tell_supply(const model::Farm& farm, SteadyAnswer& answer);

}  // namespace leat::solver
