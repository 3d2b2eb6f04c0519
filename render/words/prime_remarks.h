// What stands beside the steps of a priming plan, as sentences.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::render {

/// One remark, of one or more sentences, each.
[[nodiscard]] std::vector<std::string> remark_sentences(const solver::PrimePlan& plan,
                                                        model::UnitSystem units);

}  // namespace leat::render
