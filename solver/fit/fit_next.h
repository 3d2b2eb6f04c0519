// Which reading, not taken yet, would best tell apart what may be wrong.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "solver/fit/fit_entry.h"
#include "solver/fit/measurement_model.h"

namespace leat::solver {

/// How a gauge shows a reading: MostSuction is all that water bears before it parts.
enum class Shows { Reading, Suction, MostSuction };

/// What a cause would have one read.
struct ExpectedReading {
  std::size_t entry = 0;
  std::size_t cause = 0;  // of that entry
  double value = 0.0;     // unit of the reading
  Shows shows = Shows::Reading;
};

/// A reading that would tell causes apart, and what it would be for each.
struct TellingReading {
  ReadingSpot spot;
  std::vector<ExpectedReading> expected;  // the likeliest cause first, five at most
};

/// Spots that were not read but could be: flows at ends and springs, pressures at tees.
[[nodiscard]] std::vector<ReadingSpot> spots_to_try(const model::Farm& farm,
                                                    const std::vector<ReadingSpot>& read);

/// The spots among `spots` from `first` on that tell causes apart, the best first: pairs weighed by
/// their chances, each counted as told apart by 1 - exp(-(difference in errors)^2 / 8). `computed`
/// of the causes holds a value for each of `spots`. None where no pair differs by two errors.
[[nodiscard]] std::vector<TellingReading> telling_readings(const std::vector<ReadingSpot>& spots,
                                                           std::size_t first,
                                                           const std::vector<FitEntry>& entries);

}  // namespace leat::solver
