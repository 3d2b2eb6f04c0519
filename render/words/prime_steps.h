// The steps of a priming plan as sentences.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::render {

/// What is done in one step of the plan.
[[nodiscard]] std::string step_sentence(const solver::PrimePlan& plan,
                                        const solver::PrimeStep& step,
                                        model::UnitSystem units);

/// The steps in their order, with the water and time each takes.
[[nodiscard]] std::vector<std::string> step_sentences(const solver::PrimePlan& plan,
                                                      model::UnitSystem units);

}  // namespace leat::render
