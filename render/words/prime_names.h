// The things of a line that the sentences about filling it name.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::render {

/// "priming 'long siphon', from 'mill creek' to 'house pond'".
[[nodiscard]] std::string line_title(const model::Farm& farm, const solver::PrimePlan& plan);

/// "the summit of 'siphon' at 90 ft (106.0 ft)", or the tee it stands at; `what` is "the summit".
[[nodiscard]] std::string high_point_words(const std::string& what,
                                           const solver::priming::HighPoint& point,
                                           model::UnitSystem units);

/// "the summit of 'siphon'", "the summit at 'crest'": once it was named in full.
[[nodiscard]] std::string summit_words(const solver::PrimePlan& plan);

/// "shut off 'side' at 'crest' and 'stub' at 'low tee'"; empty without any.
[[nodiscard]] std::string shut_off_words(const std::vector<solver::priming::Branch>& branches);

/// The speed of filling, "0.3 m/s" or, as the cautions have it, "1 ft/s".
[[nodiscard]] std::string filling_speed(double velocity_m_s, model::UnitSystem units);

}  // namespace leat::render
