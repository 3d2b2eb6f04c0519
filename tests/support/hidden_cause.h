// A random farm with one thing secretly wrong, and what its keeper would read there.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "solver/fit/fit.h"
#include "tests/support/random_farm.h"

namespace leat::tests {

/// A farm as filed, its hidden cause, and noisy readings taken with it.
struct HiddenCause {
  model::Farm farm;
  solver::FitSite site;
  double size = 0.0;       // as it was put in
  double told_size = 0.0;  // as a fit tells it: of a leak the flow [m3/s]
  std::vector<solver::ReadingSpot> spots;
  std::vector<solver::GivenReading> given;
};

/// The farm of a seed with a cause that moves at least one reading by more than three standard
/// errors: flows at every trough, outlet and pond, pressures at two tees, every reading off by 3 %
/// (one standard error, normal). None where the seed's farm is larger than `most_places`, has no
/// answer, or no cause tried moves a reading that far.
[[nodiscard]] std::optional<HiddenCause> hidden_cause(std::uint64_t seed, std::size_t most_places);

/// The same, but its keeper does as fit says: the flows are read first, then the pressure at the
/// tee that fit then finds most telling, then at the one it finds most telling with that; a tee
/// drawn where it names none. What must move by three errors is any of these readings.
[[nodiscard]] std::optional<HiddenCause> hidden_cause_read_as_advised(std::uint64_t seed,
                                                                      std::size_t most_places);

}  // namespace leat::tests
