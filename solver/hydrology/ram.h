// What a hydraulic ram delivers.
#pragma once

#include <optional>

namespace leat::hydrology {

/// The part of the drive flow that a ram lifts, and its slope by the lift ratio.
struct RamShare {
  double share = 0.0;  // 0 to 1; the rest runs to waste
  double slope_per_ratio = 0.0;
};

/// d'Aubuisson's efficiency: q h / (Q H), with Q all the water that enters the drive pipe, H its
/// fall to the ram, q the delivery and h its lift above the ram.
[[nodiscard]] double daubuisson_efficiency(double drive_m3_s,
                                           double fall_m,
                                           double delivery_m3_s,
                                           double lift_m);

/// Rankine's efficiency: q (h - H) / ((Q - q) H), which counts the lift from the source.
[[nodiscard]] double rankine_efficiency(double drive_m3_s,
                                        double fall_m,
                                        double delivery_m3_s,
                                        double lift_m);

/// d'Aubuisson's efficiency of a well-set ram by lift ratio h / H: an old trade table (Building
/// Trades Pocketbook) from 0.72 at 4 to nothing at 26, straight between; below 4 as at 4, nothing
/// beyond 26. The table does not say whose efficiency it is; d'Aubuisson's is taken, since its
/// companion rule (a seventh of the supply to five times the fall) reads that way.
[[nodiscard]] double ram_efficiency(double lift_ratio);

/// Share of the drive flow delivered at a lift ratio: efficiency / ratio, with the table's
/// efficiency unless one is given (d'Aubuisson's, 0 to 1). A ratio below 1 is taken as 1: water
/// would run there by itself. Falls with the ratio, never rises.
[[nodiscard]] RamShare ram_share(double lift_ratio, std::optional<double> efficiency);

/// The lift ratio at which the table ends: no ram lifts further.
inline constexpr double stall_lift_ratio = 26.0;

/// The same for a solver: a given efficiency, too, comes to nothing at `stall_lift_ratio` (straight
/// from the ratio 24 on, as the table does), so that a ram whose delivery is shut has a head to
/// stall at.
[[nodiscard]] RamShare ram_share_until_stall(double lift_ratio, std::optional<double> efficiency);

}  // namespace leat::hydrology
