// Why a season has no answer, in sentences.
#pragma once

#include <string>
#include <vector>

#include "model/text/diagnostic.h"
#include "solver/answer/season_problem.h"

namespace leat::render {

/// A problem as it is printed: code, sentence, hint, and its place in the file where it has one.
[[nodiscard]] model::Diagnostic season_diagnostic(const solver::SeasonProblem& problem);

/// All that keep a farm from its season, each naming the farm's file; where none is told, that no
/// balance was found.
[[nodiscard]] std::vector<model::Diagnostic> season_diagnostics(
    const std::vector<solver::SeasonProblem>& problems, const std::string& file);

}  // namespace leat::render
