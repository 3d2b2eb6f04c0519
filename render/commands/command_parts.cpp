#include "render/commands/command_parts.h"

#include <utility>

#include <fmt/format.h>

#include "render/commands/solve/json_report.h"
#include "render/words/diagnostic_text.h"
#include "render/words/findings_text.h"

namespace leat::render {

CommandResult failure(const Command& command,
                      const std::vector<model::Diagnostic>& problems,
                      const model::LoadedFarm& loaded) {
  std::vector<model::Diagnostic> told;
  told.reserve(problems.size());
  for (const model::Diagnostic& problem : problems) {
    told.push_back(model::placed(loaded, problem));
  }
  CommandResult result;
  result.code = ExitCode::Failed;
  result.err = problems_text(told, loaded);
  if (command.json) {
    result.out = problems_json(std::string(command.head().word), told);
  }
  return result;
}

model::Diagnostic problem_of(std::string code, std::string text, std::string hint) {
  model::Diagnostic problem;
  problem.code = std::move(code);
  problem.text = std::move(text);
  problem.hint = std::move(hint);
  return problem;
}

model::Diagnostic problem_of(const OutputProblem& problem) {
  return problem_of(problem.code, problem.text, problem.hint);
}

std::optional<model::Diagnostic> writing_problem(const OutputTarget& target,
                                                 std::string_view bytes) {
  if (const auto problem = write_output_file(target.file, bytes, target.existing)) {
    return problem_of(*problem);
  }
  return std::nullopt;
}

ExitCode exit_code_of(bool is_solved, const std::vector<solver::Finding>& findings) {
  if (!is_solved) {
    return ExitCode::Failed;
  }
  return is_amiss(findings) ? ExitCode::Amiss : ExitCode::NothingAmiss;
}

ExitCode exit_code_of(const solver::SteadyAnswer& answer) {
  return exit_code_of(answer.converged, answer.flags);
}

std::string ending_of(const std::string& name) {
  if (name == "-") {
    return "svg";
  }
  const std::size_t dot = name.rfind('.');
  std::string ending = dot == std::string::npos ? std::string() : name.substr(dot + 1);
  for (char& letter : ending) {
    letter = letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
  }
  return ending;
}

std::optional<ChartFormat> chart_format_of(const std::string& name) {
  const std::string ending = ending_of(name);
  if (ending == "svg") {
    return ChartFormat::Svg;
  }
  if (ending == "pdf") {
    return ChartFormat::Pdf;
  }
  if (ending == "png") {
    return ChartFormat::Png;
  }
  return std::nullopt;
}

std::vector<std::string> chart_endings() {
  return {"svg", "pdf", "png"};
}

model::Diagnostic unknown_picture(const std::string& name) {
  return problem_of("unknown-ending",
                    fmt::format("cannot tell from '{}' what to draw", name),
                    "end it in .svg, .pdf or .png");
}

}  // namespace leat::render
