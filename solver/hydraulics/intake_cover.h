// How deep an intake must lie so that it draws no air.
#pragma once

namespace leat::hydraulics {

/// Least depth of water over an intake whatever it takes [m]: common practice, no source.
inline constexpr double least_intake_cover_m = 0.3;

/// Least depth of water over a pipe's mouth [m]: max(0.3 m, D (1 + 2.3 Fr)), Fr = v/sqrt(g D)
/// (Hydraulic Institute 9.8, from memory).
[[nodiscard]] double intake_cover_needed_m(double bore_m, double velocity_m_s);

}  // namespace leat::hydraulics
