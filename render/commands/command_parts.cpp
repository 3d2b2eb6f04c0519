#include "render/commands/command_parts.h"

#include <algorithm>
#include <utility>

#include "render/cli/command_table.h"
#include "render/commands/solve/json_report.h"
#include "render/words/diagnostic_text.h"
#include "render/words/findings_text.h"

namespace leat::render {

namespace {

/// As it is typed.
std::string_view word_of(Command command) {
  for (const CommandEntry& entry : all_commands()) {
    if (entry.command == command) {
      return entry.word;
    }
  }
  return "";
}

}  // namespace

CommandResult failure(const CommandLine& line,
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
  if (line.form == OutputForm::Json) {
    result.out = problems_json(std::string(word_of(line.command)), told);
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

solver::SteadyOptions options_of(const CommandLine& line) {
  solver::SteadyOptions options;
  options.load_case = line.load_case;
  options.broken = line.broken;
  options.month = line.month;
  return options;
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

}  // namespace leat::render
