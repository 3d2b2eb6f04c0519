// What a fit lists: causes that the readings do not tell apart and that lie at one place, one row.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/fit/fit_search.h"
#include "solver/network/unbranched_lines.h"

namespace leat::solver {

/// What is wrong at one place: one cause, or several that no reading here tells apart. A place is a
/// pipe or a place of the file, or a whole line from fork to fork with what stands at its ends.
struct FitEntry {
  std::vector<FittedCause> causes;  // the most likely first
  double chance = 0.0;              // of all of them together
  std::vector<std::size_t> alike;   // other entries (index) that the readings do not tell from it
  std::optional<UnbranchedLine> line;  // where they sit at several spots of one line
};

/// One thing that an entry may come of. Indexes are those of the entry's causes.
struct Alternative {
  std::size_t cause = 0;  // the likeliest of its kind
  std::vector<std::size_t>
      elsewhere;  // the like of it, of its own size, at the entry's other spots
};
/// The kinds of cause of an entry, each once, the likeliest first.
[[nodiscard]] std::vector<Alternative> alternatives_of(const FitEntry& entry);
/// A cause for every pipe or place that the entry's causes sit at, each once, the likeliest first.
[[nodiscard]] std::vector<std::size_t> distinct_spots(const FitEntry& entry);

/// Whether two causes sit at the very same pipe or place of the file.
[[nodiscard]] bool same_spot(const FitSite& a, const FitSite& b);

/// How far two causes' readings lie apart over the given spots, in standard errors of all together.
[[nodiscard]] double readings_apart(const std::vector<double>& a,
                                    const std::vector<double>& b,
                                    const std::vector<GivenReading>& given);

/// Gathers causes, each with its chance, into entries, the likeliest entry first; those below a
/// chance of 0.5 % and all beyond the twelfth are left out, but the first two stay.
[[nodiscard]] std::vector<FitEntry> gathered(const model::Farm& farm,
                                             const std::vector<FittedCause>& causes,
                                             const std::vector<GivenReading>& given);

}  // namespace leat::solver
