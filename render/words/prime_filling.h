// The sentences about a line that fills by itself: how it does so without keeping air.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::render {

[[nodiscard]] std::string sentence_of(const solver::priming::KeepBranchShut& step,
                                      const solver::PrimePlan& plan,
                                      model::UnitSystem units);
[[nodiscard]] std::string sentence_of(const solver::priming::OpenBeforeWater& step,
                                      const solver::PrimePlan& plan,
                                      model::UnitSystem units);
[[nodiscard]] std::string sentence_of(const solver::priming::LetWaterIn& step,
                                      const solver::PrimePlan& plan,
                                      model::UnitSystem units);
[[nodiscard]] std::string sentence_of(const solver::priming::CloseHighPoint& step,
                                      const solver::PrimePlan& plan,
                                      model::UnitSystem units);
[[nodiscard]] std::string sentence_of(const solver::priming::LetItRunFull& step,
                                      const solver::PrimePlan& plan,
                                      model::UnitSystem units);

}  // namespace leat::render
