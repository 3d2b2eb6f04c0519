// What every command needs to end well or badly: problems as a result, its file
// written, the exit status of an answer, the kind of picture a file's name asks for.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/keys/farm_file.h"
#include "model/text/diagnostic.h"
#include "render/commands/command.h"
#include "render/commands/output_target.h"
#include "render/pictures/chart/gnuplot_script.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// A command that came to nothing: the problems on stderr, and as JSON where that was asked for.
[[nodiscard]] CommandResult failure(const Command& command,
                                    const std::vector<model::Diagnostic>& problems,
                                    const model::LoadedFarm& loaded);

/// A problem that stands in no file.
[[nodiscard]] model::Diagnostic problem_of(std::string code, std::string text, std::string hint);

/// Why a file was not written, as a problem.
[[nodiscard]] model::Diagnostic problem_of(const OutputProblem& problem);

/// Writes the file asked for, or says why that cannot be.
[[nodiscard]] std::optional<model::Diagnostic> writing_problem(const OutputTarget& target,
                                                               std::string_view bytes);

/// Failed, amiss (a caution or danger is flagged) or nothing amiss.
[[nodiscard]] ExitCode exit_code_of(const solver::SteadyAnswer& answer);
[[nodiscard]] ExitCode exit_code_of(bool is_solved, const std::vector<solver::Finding>& findings);

/// What follows the last dot of a name, in small letters; "svg" for stdout.
[[nodiscard]] std::string ending_of(const std::string& name);

/// The chart's kind by the ending of its file's name; none for an ending leat does not draw.
[[nodiscard]] std::optional<ChartFormat> chart_format_of(const std::string& name);

/// The endings of charts, and the problem of a file with another one (code unknown-ending).
[[nodiscard]] std::vector<std::string> chart_endings();
[[nodiscard]] model::Diagnostic unknown_picture(const std::string& name);

}  // namespace leat::render
