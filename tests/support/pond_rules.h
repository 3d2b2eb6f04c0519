// Rules of thumb for a pond nobody has measured.
#pragma once

#include <numbers>

namespace leat::hydrology {

/// Volume [m3] of a natural-looking pond: 0.4 x greatest depth x surface area (USDA AH-590, from
/// memory). A guess: a bowl holds 0.5, a pit with upright sides 1.0, a cone 0.33.
[[nodiscard]] constexpr double rule_volume_m3(double greatest_depth_m, double area_m2) {
  return 0.4 * greatest_depth_m * area_m2;
}

/// Area [m2] of a round pond from its shoreline (Ohioline A-2): shoreline squared / 4 pi. Any other
/// outline has less.
[[nodiscard]] constexpr double area_of_round_pond_m2(double shoreline_m) {
  return shoreline_m * shoreline_m / (4.0 * std::numbers::pi);
}

}  // namespace leat::hydrology
