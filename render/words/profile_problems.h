// Why there is no profile, in sentences.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/profile/profile.h"

namespace leat::render {

/// Why the words for a run name none, or the farm has no solution; empty where there is a profile.
[[nodiscard]] std::vector<model::Diagnostic> profile_problems(const model::Farm& farm,
                                                              const solver::Profile& profile);

}  // namespace leat::render
