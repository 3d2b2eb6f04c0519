// How fast a line is filled so that its air can leave.
#pragma once

#include <optional>

#include "solver/prime/prime_course.h"

namespace leat::solver {

/// A line is filled no faster than this, so that its air can leave (design, section 7) [m/s].
inline constexpr double fastest_filling_m_s = 0.3;
/// Poured in at the top, water leaves half the bore to the air that comes up past it; a long bubble
/// rises at 0.35 sqrt(g D) (from memory; the half is common practice, no source).
inline constexpr double rising_bubble = 0.35;
inline constexpr double share_for_air = 0.5;

struct FillingRate {
  double fill_m3_s = 0.0;     // rate reckoned with, poured or running in by itself
  double fastest_m3_s = 0.0;  // the most it may be
  double pump_m3_s = 0.0;     // of a fill pump, whose air leaves ahead of the water
  double fill_s = 0.0;        // time the whole volume takes at that rate
};

/// `asked_m3_s` is what can be poured or pumped, `inflow_m3_s` what runs into the line by itself.
[[nodiscard]] FillingRate filling_rate(const PrimeCourse& course,
                                       std::optional<double> asked_m3_s,
                                       double inflow_m3_s);

}  // namespace leat::solver
