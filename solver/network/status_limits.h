// Below which differences nothing has happened: one place for whoever looks for lines that break,
// tees that draw air and summits that part, and for whoever asks cheaply whether one might.
#pragma once

namespace leat::solver {

/// A water level or high point that differs from another by less is at the same level [m].
inline constexpr double least_rise_m = 1e-6;
/// Suction below this is rounding, not air on its way [m] (0.1 kPa, the limit of the suction
/// state).
inline constexpr double least_suction_m = 0.01;
/// Heads on both sides of a summit, or of an end over water, that differ by less hang together [m].
inline constexpr double parted_gap_m = 1e-6;

}  // namespace leat::solver
