// What improving has to say: what to do, what places then get, what is to be known of the plan.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/improve/improve.h"

namespace leat::render {

/// "set the gate valve on to lane 3/8 open", without a full stop.
[[nodiscard]] std::string action_words(const solver::Action& action, model::UnitSystem units);

/// What a change does, with what places then get where it is set by hand: one sentence without a
/// full stop.
[[nodiscard]] std::string change_words(const model::Farm& farm,
                                       const solver::SolvedChange& change,
                                       model::UnitSystem units);

/// "bleed the air at crest: no figure here counts air; ...", without a full stop.
[[nodiscard]] std::string air_words(const model::Farm& farm,
                                    const solver::ImprovePlan& plan,
                                    const solver::AirLoss& air,
                                    model::UnitSystem units);

/// By how much a number is changed: "0.3 m higher", "10 % more", "1 in SIDR 15".
[[nodiscard]] std::string small_change_words(const solver::SmallChange& change,
                                             model::UnitSystem units);

/// One sentence without a full stop.
[[nodiscard]] std::string improve_note(const solver::ImproveNote& note);

/// Why there is no plan, as an error of the farm's file.
[[nodiscard]] model::Diagnostic improve_problem(const solver::ImproveRefusal& refusal,
                                                const model::Farm& farm);

}  // namespace leat::render
