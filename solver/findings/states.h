// Gives every place and pipe its state and all findings.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/flow/solved_case.h"

namespace leat::solver {

/// Limits of the judgements (design; sources in render/OUTPUT.md).
inline constexpr double near_vapour_margin_m = 2.5;
inline constexpr double low_absolute_head_m = 5.0;
inline constexpr double suction_limit_Pa = 100.0;
inline constexpr double storm_share = 0.03;         // how far a storm can lower the air's pressure
inline constexpr double fast_velocity_m_s = 1.524;  // 5 ft/s
inline constexpr double silt_velocity_m_s = 0.6;    // Jordan 1980, from memory
inline constexpr double collapse_danger_factor = 1.0;
inline constexpr double collapse_caution_factor = 2.0;

/// Fills in figures, states and findings of an answer. `cases` holds the load case asked for first
/// and the others for their dangers, each solved, exactly one of them static. The findings are
/// sorted worst first, one a code and place: the worst load case wins. What each place gets, and
/// the states, are those of the first case.
void judge(const model::Farm& farm, std::vector<SolvedCase>& cases, SteadyAnswer& answer);

}  // namespace leat::solver
