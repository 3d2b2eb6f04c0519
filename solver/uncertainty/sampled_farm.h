// One draw of what a farm might really be, each input off by an error of its model. The same draw
// comes out whatever was drawn before it, and on whichever thread.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "model/farm/farm.h"
#include "solver/uncertainty/uncertain_inputs.h"

namespace leat::solver {

/// A standard normal deviate, the same on every machine for a seed, draw and input: a counter
/// hashed to 64 bits (splitmix64's finaliser), turned by the inverse of the normal distribution.
[[nodiscard]] double normal_deviate(std::uint64_t seed, std::uint64_t draw, std::uint64_t input);

/// The deviate below which a share `probability` (0 to 1, both excluded) of normal deviates lie.
/// Within 1e-9 of the root. Source: Acklam's rational approximation (from memory), then one step of
/// Halley's method.
[[nodiscard]] double normal_quantile(double probability);

/// Sets every input on `farm`, a copy of `base`, to its draw. `farm` may hold an earlier draw.
void draw_into(model::Farm& farm,
               const model::Farm& base,
               std::span<const UncertainInput> inputs,
               std::uint64_t seed,
               std::uint64_t draw);

/// A copy of the farm as it might be.
[[nodiscard]] model::Farm drawn_farm(const model::Farm& base,
                                     std::span<const UncertainInput> inputs,
                                     std::uint64_t seed,
                                     std::uint64_t draw);

}  // namespace leat::solver
