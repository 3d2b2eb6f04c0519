// What frost does, in sentences.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "solver/answer/season_note.h"

namespace leat::render {

[[nodiscard]] std::string note_text(const solver::FrostUntold& untold, model::UnitSystem units);
/// How many nights freeze in which months, and the coldest to reckon with.
[[nodiscard]] std::string note_text(const solver::FrostNights& frost, model::UnitSystem units);
[[nodiscard]] std::string note_text(const solver::ColdSpringTaken& taken, model::UnitSystem units);
[[nodiscard]] std::string note_text(const solver::FrostRules& rules, model::UnitSystem units);
/// What every trough asks for in the coldest night.
[[nodiscard]] std::string note_text(const solver::FrostAtTroughs& troughs, model::UnitSystem units);
[[nodiscard]] std::string note_text(const solver::VentsInFrost& vents, model::UnitSystem units);
/// Which tees hold water when the pipes are opened.
[[nodiscard]] std::string note_text(const solver::LowTees& low, model::UnitSystem units);

/// What one pipe asks for in the coldest night.
[[nodiscard]] std::string frost_pipe_text(const std::string& name,
                                          const solver::FrostPipe& pipe,
                                          model::UnitSystem units);

}  // namespace leat::render
