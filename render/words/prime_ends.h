// The sentences about a siphon's two ends: what shuts them while it is filled, and how they are
// opened again.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/prime/prime.h"

namespace leat::render {

/// "the gate valve at the end of 'siphon'", "the float of 'trough'", or what is fitted there.
[[nodiscard]] std::string outlet_piece(const solver::PrimePlan& plan);

/// What is done to the lower end when its air is out: "shut ...", "tie up ...", "put its cap on".
[[nodiscard]] std::string shut_lower_end_words(const solver::PrimePlan& plan);

/// The foot valve that holds the inlet leg, "hinged foot valve"; the plan has one.
[[nodiscard]] std::string foot_valve_words(const solver::PrimePlan& plan);

[[nodiscard]] std::string sentence_of(const solver::priming::CloseInlet& step,
                                      const solver::PrimePlan& plan,
                                      model::UnitSystem units);
[[nodiscard]] std::string sentence_of(const solver::priming::CloseOutlet& step,
                                      const solver::PrimePlan& plan,
                                      model::UnitSystem units);
[[nodiscard]] std::string sentence_of(const solver::priming::OpenInlet& step,
                                      const solver::PrimePlan& plan,
                                      model::UnitSystem units);
[[nodiscard]] std::string sentence_of(const solver::priming::OpenOutlet& step,
                                      const solver::PrimePlan& plan,
                                      model::UnitSystem units);

}  // namespace leat::render
