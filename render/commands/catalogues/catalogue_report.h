// The catalogues that the farm file's words come from, each row with its source.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "render/commands/command.h"

namespace leat::render {

/// The lists in the asked form: a table in the given units, JSON, or CSV (both always SI).
[[nodiscard]] std::string pipes_text(AnswerForm form, model::UnitSystem units);
[[nodiscard]] std::string fittings_text(AnswerForm form, model::UnitSystem units);
[[nodiscard]] std::string herd_text(AnswerForm form, model::UnitSystem units);

}  // namespace leat::render
