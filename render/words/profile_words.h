// A profile in words: what a table, a picture and a reader call its parts.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/profile/profile.h"

namespace leat::render {

/// "siphon, from creek pool to willow pond", or "crag spring to far bank, over upper line, ...".
[[nodiscard]] std::string run_words(const model::Farm& farm, const solver::Profile& profile);

/// What stands at a point: "summit", "gate valve, part open", "tee: gate tee". Empty for no mark.
[[nodiscard]] std::string mark_words(const model::Farm& farm, const solver::ProfilePoint& point);

/// The word of a point's mark in JSON and CSV; a joint's is the kind of its place. Empty for none.
[[nodiscard]] std::string mark_word(const model::Farm& farm, const solver::ProfilePoint& point);

/// "summit" for a high point of the pipe, "knee" for another turn downward.
[[nodiscard]] const char* summit_word(const solver::ProfileSummit& summit);

/// "8.4 m absolute, margin 8.2 m", or that the water parts there, or that nothing is known.
[[nodiscard]] std::string summit_words(const solver::SummitAnswer& summit, model::UnitSystem units);

/// "part full for 31 m, then full again", "part full for 12 m, to the end of the run" ...
[[nodiscard]] std::string reach_words(const solver::PartFullReach& reach, model::UnitSystem units);

/// The answer with the flags of the run's own pipes and places alone.
[[nodiscard]] std::vector<solver::Finding> findings_on_run(const model::Farm& farm,
                                                           const solver::Profile& profile);

}  // namespace leat::render
