// Why a season has no answer, in sentences.
#pragma once

#include <string>
#include <vector>

#include "model/text/diagnostic.h"
#include "solver/answer/season_problem.h"

namespace leat::render {

/// A problem as it is printed: code, sentence, hint, and its place in the file where it has one.
[[nodiscard]] model::Diagnostic season_diagnostic(const solver::SeasonProblem& problem);

/// All of a farm's, each naming the farm's file.
[[nodiscard]] std::vector<model::Diagnostic> season_diagnostics(
    const std::vector<solver::SeasonProblem>& problems, const std::string& file);

}  // namespace leat::render
