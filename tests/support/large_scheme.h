// Large tree-like schemes, for measuring how the work grows with the size of the farm.
#pragma once

#include <cstddef>
#include <cstdint>

#include "model/farm/farm.h"

namespace leat::tests {

/// How the tees of a large scheme are joined.
enum class SchemeShape {
  Bush,   // every tee hangs on any earlier one: branches everywhere, short ways
  Comb,   // on one of the last 200: long mains with side branches
  Ribbon  // on one of the last 10, as in random_farm.h: one way through nearly all of it
};

/// A scheme of about `places` places: a spring or creek to every 20 tees, a float to
/// every second, one-ways in 6 % of the pipes, and 5 % of the pipes closing loops. The springs give
/// enough for all needs together. The same on every machine.
[[nodiscard]] model::Farm large_scheme(std::size_t places, SchemeShape shape, std::uint64_t seed);

}  // namespace leat::tests
