// How farms that stand beside each other differ, in sentences.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/compare/differences.h"

namespace leat::render {

/// One difference in a sentence without the farm's label and full stop. `first` is what the first
/// farm is called in it.
[[nodiscard]] std::string difference_words(const solver::Difference& difference,
                                           const std::string& first,
                                           model::UnitSystem units);

/// "3 floats, 1 foot valve"; "none".
[[nodiscard]] std::string parts_words(const solver::MovingParts& parts);

/// "fills itself", "by hand, 12 gal", "cannot hold".
[[nodiscard]] std::string starting_words(const solver::StartingEffort& effort,
                                         model::UnitSystem units);

/// "62 %": rounded down below all, so that what falls short never reads 100 %.
[[nodiscard]] std::string share_words(double share);

}  // namespace leat::render
