// Why a line is not to be primed or filled as it is, as values.
#pragma once

#include <string>
#include <variant>

#include "solver/answer/finding.h"

namespace leat::solver::priming {

/// A finding with which no line is filled: it would part, gas up, draw air, be sucked flat, burst.
struct FoundUnsafe {
  Finding finding;
  bool by_own_water = false;  // what the line is primed with is too much for a pipe of it
};

struct VentInTheWay {
  std::string pipe;
  double at_m = 0.0;           // as the file writes it
  bool stands_higher = false;  // than the summit: it lets air in; else it spills as well
};

/// Water does not run uphill.
struct EndAboveSource {
  double source_m = 0.0;
  double end_m = 0.0;
};

struct NothingRuns {};

}  // namespace leat::solver::priming

namespace leat::solver {

using PrimeRefusal = std::variant<priming::FoundUnsafe,
                                  priming::VentInTheWay,
                                  priming::EndAboveSource,
                                  priming::NothingRuns>;

}  // namespace leat::solver
