// A finding's figures as JSON and CSV give them.
#pragma once

#include <optional>
#include <string_view>

#include "solver/answer/finding.h"

namespace leat::render {

/// "kPa", "L/s", "m"; "" for a ratio.
[[nodiscard]] std::string_view unit_word(solver::Measure measure);

/// An SI figure in the unit of `unit_word`; none stays none.
[[nodiscard]] std::optional<double> printed_figure(const std::optional<double>& figure,
                                                   solver::Measure measure);

}  // namespace leat::render
