// Gives every place and pipe its state and every finding its flag.
#pragma once

#include <vector>

#include "solver/flow_state.h"
#include "solver/siphon_rounds.h"
#include "solver/static_heads.h"
#include "solver/steady_answer.h"

namespace leat::solver {

/// What the rounds before the last one brought about.
struct Happenings {
  std::vector<BrokenLine> broken_lines;
  std::vector<DrawingTee> drawing_tees;
};

/// Limits of the judgements (design; sources in render/OUTPUT.md).
inline constexpr double met_limit = 0.995;
inline constexpr double dry_limit = 0.005;
inline constexpr double near_vapour_margin_m = 2.5;
inline constexpr double low_absolute_head_m = 5.0;
inline constexpr double suction_limit_Pa = 100.0;
inline constexpr double storm_share = 0.03;         // how far a storm can lower the air's pressure
inline constexpr double fast_velocity_m_s = 1.524;  // 5 ft/s

/// Fills in states and flags of an answer whose figures have been read from `state`. The flags are
/// sorted worst first, one a code and place.
void judge(const FlowState& state,
           const Happenings& happenings,
           const std::vector<std::optional<StaticPressure>>& static_pressures,
           model::UnitSystem units,
           SteadyAnswer& answer);

}  // namespace leat::solver
