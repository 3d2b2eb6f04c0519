// Why a trough or outlet goes short, in one sentence.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/answer/reason.h"

namespace leat::render {

/// "its float stands 6 ft above the running grade line at gate tee": without the figures of the
/// need itself and without a full stop.
[[nodiscard]] std::string why_short_text(const solver::Reason& reason, model::UnitSystem units);

/// The same of a month of a season: "box gives 2.88 m3 a day, 9 m3 are wanted".
[[nodiscard]] std::string why_short_text(const solver::SeasonReason& reason,
                                         model::UnitSystem units);

}  // namespace leat::render
