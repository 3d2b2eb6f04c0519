// The words an option's value is chosen from: parsing, the manual and the shells' completion read
// them here.
#pragma once

#include <array>
#include <span>
#include <string_view>
#include <utility>

#include "model/farm/farm.h"
#include "render/cli/command_line.h"

namespace leat::render {

/// A word and what it stands for.
template <class Value>
using Choice = std::pair<std::string_view, Value>;

/// Of --case. `fit` refuses static, `improve` too: nothing runs in it.
inline constexpr std::array<Choice<solver::LoadCase>, 3> load_cases = {
    {{"needs", solver::LoadCase::Needs},
     {"wide", solver::LoadCase::Wide},
     {"static", solver::LoadCase::Static}}};

/// Of --units; "us" is read but not offered.
inline constexpr std::array<Choice<model::UnitSystem>, 3> unit_systems = {
    {{"US", model::UnitSystem::Us},
     {"metric", model::UnitSystem::Metric},
     {"us", model::UnitSystem::Us}}};

/// Of --csv of the command, what plain --csv means first. Empty for a command without --csv.
[[nodiscard]] std::span<const Choice<OutputForm>> csv_forms(Command command);

}  // namespace leat::render
