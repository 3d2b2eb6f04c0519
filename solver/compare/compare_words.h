// What differs between farms that stand beside each other, in sentences.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "solver/compare/compare.h"

namespace leat::solver {

/// Flows that differ by less than this share of the greater one are told as the same.
inline constexpr double same_flow_share = 0.01;

/// One difference of a farm from the first one.
struct Difference {
  std::size_t farm = 0;  // index into Comparison::farms, 1 or more
  std::string text;      // one sentence without the farm's label and full stop
};

/// How each farm differs from the first: flows, dry days, pond levels, energy, waste, starting,
/// moving parts, pipe, flags. Every farm has at least one sentence; farms without an answer, and
/// all where the first has none, have none. `first` is what the first farm is called in them.
[[nodiscard]] std::vector<Difference> differences(const std::vector<const model::Farm*>& farms,
                                                  const Comparison& comparison,
                                                  const std::string& first,
                                                  model::UnitSystem units);

/// "3 floats, 1 foot valve"; "none".
[[nodiscard]] std::string parts_words(const MovingParts& parts);

/// "fills itself", "by hand, 12 gal", "cannot hold".
[[nodiscard]] std::string starting_words(const StartingEffort& effort, model::UnitSystem units);

/// "62 %": rounded down below all, so that what falls short never reads 100 %.
[[nodiscard]] std::string share_words(double share);

}  // namespace leat::solver
