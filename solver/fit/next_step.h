// What to do after a fit: measure, look, or leave it.
#pragma once

#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

#include "solver/fit/fit_next.h"
#include "solver/fit/fit_site.h"

namespace leat::solver {

struct FitAnswer;

/// Nothing was measured: the flow at each trough, outlet and pond end is wanted.
struct MeasureFlows {};
/// The readings and the file agree.
struct NothingMore {};
/// No cause comes near: more than one thing may be wrong.
struct MeasureAgain {};
/// The reading that tells the causes apart best.
struct TakeReading {
  TellingReading reading;
};
/// No other reading tells them apart: what to look at, the likeliest first.
struct LookAt {
  std::vector<FitSite> sites;
  std::optional<std::size_t> halved;  // a gauge halfway along this pipe shows the side of the loss
};
using NextStep = std::variant<NothingMore, MeasureFlows, MeasureAgain, TakeReading, LookAt>;

/// What follows from the readings, the verdict and the entries of `answer`.
[[nodiscard]] NextStep next_step(const FitAnswer& answer);

}  // namespace leat::solver
