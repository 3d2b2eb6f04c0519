// Pond evaporation from a Class A pan.
#pragma once

namespace leat::hydrology {

/// A shallow pond loses about 0.70 of what a Class A pan loses over a year (NOAA evaporation atlas
/// text, as quoted; 0.64 to 0.88 by region, Farnsworth et al. 1982, NOAA TR NWS 33, from memory).
/// Single months stray further, since a deep pond warms and cools later than a pan.
inline constexpr double shallow_pond_pan_coefficient = 0.70;

/// Evaporation of a pond [mm/day] beside a pan that loses `pan_mm_per_day`.
[[nodiscard]] constexpr double pond_evaporation_mm_per_day(double pan_mm_per_day,
                                                           double pan_coefficient) {
  return pan_mm_per_day * pan_coefficient;
}

/// A depth a day over an area, as a flow [m3/s] (rain, evaporation, seepage).
[[nodiscard]] constexpr double depth_rate_over_area_m3_s(double mm_per_day, double area_m2) {
  return mm_per_day * 1e-3 * area_m2 / 86400.0;
}

}  // namespace leat::hydrology
