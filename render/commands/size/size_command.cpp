#include "render/commands/size/size_command.h"

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "model/edit/size_splice.h"
#include "render/commands/command_parts.h"
#include "render/commands/size/size_report.h"
#include "render/io/output_file.h"
#include "render/words/diagnostic_text.h"
#include "render/words/size.h"
#include "solver/size/size.h"
#include "solver/steady/steady.h"

namespace leat::render {

namespace {

/// Which pipes of the laid farm each run became: parts stand where their run stood.
std::vector<model::SplicedRun> spliced_runs(const model::Farm& farm, const solver::SizePlan& plan) {
  std::vector<model::SplicedRun> spliced;
  std::size_t at = 0;
  for (std::size_t pipe = 0; pipe < farm.pipes.size(); ++pipe) {
    std::size_t parts = 1;
    for (const solver::SizedRun& run : plan.runs) {
      if (run.pipe == pipe) {
        parts = run.parts.size();
        spliced.push_back({pipe, {}});
        for (std::size_t i = 0; i < parts; ++i) {
          spliced.back().laid.push_back(at + i);
        }
      }
    }
    at += parts;
  }
  return spliced;
}

using Written = std::variant<std::string, model::Diagnostic>;

/// The new file's text, read back, compared with what was meant, and solved.
Written written_farm(const CommandLine& line,
                     const model::LoadedFarm& loaded,
                     const solver::SizePlan& plan) {
  const model::Farm& farm = *loaded.farm;
  Written text = model::spliced_sizes(loaded.source, farm, plan.laid, spliced_runs(farm, plan));
  if (std::holds_alternative<model::Diagnostic>(text)) {
    return text;
  }
  const std::string name = line.output == "-" ? line.file : line.output;
  const model::LoadedFarm read = model::load_farm(std::get<std::string>(text), name);
  if (!read.farm) {
    return problem_of(
        "does-not-read-back",
        fmt::format("'{}' would not be a sound farm file: {}", name, read.problems.front().text),
        "write it beside the old file, where its CSV files are");
  }
  if (const auto difference = model::first_difference(plan.laid, *read.farm)) {
    return problem_of("does-not-read-back",
                      fmt::format("'{}' would not read back the same: {}", name, *difference),
                      "put the sizes into a copy of the file by hand");
  }
  solver::SteadyOptions options;
  options.month = plan.answer.month;
  const solver::SteadyAnswer answer = solver::solve_steady(*read.farm, options);
  if (!answer.converged) {
    return problem_of("not-solved", fmt::format("'{}' would not be solved", name), "");
  }
  return text;
}

std::string plan_text(const CommandLine& line,
                      const model::Farm& farm,
                      const solver::SizePlan& plan,
                      const Terminal& terminal) {
  if (line.form == OutputForm::Json) {
    return size_json(farm, plan, line.units.value_or(farm.show));
  }
  if (line.form != OutputForm::Table) {
    return size_csv(farm, plan);
  }
  return size_table(farm, plan, {line.units.value_or(farm.show), line.detail}, terminal);
}

}  // namespace

CommandResult size_command(const CommandLine& line,
                           const model::LoadedFarm& loaded,
                           const Terminal& terminal) {
  const model::Farm& farm = *loaded.farm;
  solver::SizeOptions options;
  options.month = line.month;
  options.units = line.units;
  options.one_size = line.one_size;
  const solver::SizePlan plan = solver::size_plan(farm, options);
  std::vector<model::Diagnostic> problems = plan.problems;
  for (const solver::SizeRefusal refusal : plan.refusals) {
    problems.push_back(size_problem(refusal, farm));
  }
  if (!problems.empty()) {
    return failure(line, problems, loaded);
  }
  if (!plan.answer.converged) {
    return failure(line, plan.answer.problems, loaded);
  }
  CommandResult result;
  result.code = exit_code_of(plan.answer);
  result.err = problems_text(loaded.problems, loaded);
  if (!line.output.empty()) {
    const Written written = written_farm(line, loaded, plan);
    if (const auto* const problem = std::get_if<model::Diagnostic>(&written)) {
      return failure(line, {*problem}, loaded);
    }
    const std::string& text = std::get<std::string>(written);
    if (line.output == "-") {
      result.out = text;
      return result;
    }
    if (const auto problem = write_output_file(line.output, text, line.existing)) {
      return failure(line, {problem_of(problem->code, problem->text, problem->hint)}, {});
    }
    result.err += fmt::format("wrote {}\n", line.output);
  }
  result.out = plan_text(line, farm, plan, terminal);
  return result;
}

}  // namespace leat::render
