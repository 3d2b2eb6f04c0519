// Random farms with what a season needs: tanks, ponds and troughs that hold water, hours, weather.
#pragma once

#include <cstdint>

#include "model/farm/farm.h"

namespace leat::tests {

/// The farm of a seed: a `random_farm` of every element, with areas, shapes, volumes, drinking
/// hours, yields by month, seepage, weather and floats that break on 10 August 2026.
[[nodiscard]] model::Farm random_season_farm(std::uint64_t seed);

/// A tree: one spring, tees below every float, troughs with a need; nothing that breaks.
[[nodiscard]] model::Farm random_tree_farm(std::uint64_t seed);

}  // namespace leat::tests
