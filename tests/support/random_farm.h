// Random farms for property tests: every element a farm file can hold, and the shapes that give a
// solver trouble. Made as plain values, so that a million of them cost no file reading.
#pragma once

#include <cstdint>

#include "model/farm/farm.h"

namespace leat::tests {

/// What a random farm may hold.
enum class FarmKind {
  Prototype,   // springs, creeks, floats, one-ways, summits, regulators, loops; 3 to 120 places
  Everything,  // beside these tanks, ponds, valves, vents, foot valves, dead branches, 1 mm falls
               // ...
  SingleLine,  // one source, one pipe, one outlet
  LimitFree    // creeks, tees and ponds only: no limit acts
};

/// The farm of a seed: the same on every machine.
[[nodiscard]] model::Farm random_farm(std::uint64_t seed, FarmKind kind);

}  // namespace leat::tests
