// Whether a line holds, needs nothing or is not to be primed, and why one has no plan, in
// sentences.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/prime/prime.h"

namespace leat::render {

/// One or two sentences: why it holds, cannot hold or needs nothing.
[[nodiscard]] std::string prime_verdict(const solver::PrimePlan& plan, model::UnitSystem units);

/// Why there is no plan; empty where there is one.
[[nodiscard]] std::vector<model::Diagnostic> prime_problems(const model::Farm& farm,
                                                            const solver::PrimePlan& plan);

}  // namespace leat::render
