#include "render/commands/size/command.h"

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "model/edit/size_splice.h"
#include "render/commands/command_parts.h"
#include "render/commands/shared_options.h"
#include "render/commands/size/size_report.h"
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
Written written_farm(const SizeCommand& asked,
                     const model::LoadedFarm& loaded,
                     const solver::SizePlan& plan) {
  const model::Farm& farm = *loaded.farm;
  Written text = model::spliced_sizes(loaded.source, farm, plan.laid, spliced_runs(farm, plan));
  if (std::holds_alternative<model::Diagnostic>(text)) {
    return text;
  }
  const std::string name = asked.output.is_stdout() ? asked.file : asked.output.file;
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

std::string plan_text(const SizeCommand& asked,
                      const model::Farm& farm,
                      const solver::SizePlan& plan,
                      const Terminal& terminal) {
  switch (asked.form()) {
    case AnswerForm::Json:
      return size_json(farm, plan, asked.units_for(farm));
    case AnswerForm::Csv:
      return size_csv(farm, plan);
    case AnswerForm::Screen:
      break;
  }
  return size_table(farm, plan, {asked.units_for(farm), Detail::Short}, terminal);
}

}  // namespace

CommandHead SizeCommand::head() const {
  return {"size",
          "What pipe to lay in the runs marked 'size: choose'; what troughs and tanks must hold.",
          "  leat size my-farm.yaml\n  leat size my-farm.yaml --month Aug --write sized.yaml\n"};
}

std::vector<Option> SizeCommand::farm_options() {
  return {csv_option(the_only_table, csv),
          switch_option({"--one-size"}, "lay every run in one size, none in two", one_size),
          new_farm_option("file to write the farm to with the sizes in it", output.file),
          month_option(month),
          units_option(units),
          replace_option(output)};
}

std::optional<UsageProblem> SizeCommand::check() const {
  if (auto problem = FarmCommand::check()) {
    return problem;
  }
  return both_on_stdout(*this, output);
}

CommandResult SizeCommand::answer(const model::LoadedFarm& loaded, const Terminal& terminal) const {
  const model::Farm& farm = *loaded.farm;
  solver::SizeOptions options;
  options.month = month;
  options.units = units;
  options.one_size = one_size;
  const solver::SizePlan plan = solver::size_plan(farm, options);
  std::vector<model::Diagnostic> problems = plan.problems;
  for (const solver::SizeRefusal refusal : plan.refusals) {
    problems.push_back(size_problem(refusal, farm));
  }
  if (!problems.empty()) {
    return failure(*this, problems, loaded);
  }
  if (!plan.answer.converged) {
    return failure(*this, plan.answer.problems, loaded);
  }
  CommandResult result;
  result.code = exit_code_of(plan.answer);
  result.err = problems_text(loaded.problems, loaded);
  if (output.is_asked()) {
    const Written written = written_farm(*this, loaded, plan);
    if (const auto* const problem = std::get_if<model::Diagnostic>(&written)) {
      return failure(*this, {*problem}, loaded);
    }
    const std::string& text = std::get<std::string>(written);
    if (output.is_stdout()) {
      result.out = text;
      return result;
    }
    if (const auto problem = writing_problem(output, text)) {
      return failure(*this, {*problem}, {});
    }
    result.err += fmt::format("wrote {}\n", output.file);
  }
  result.out = plan_text(*this, farm, plan, terminal);
  return result;
}

}  // namespace leat::render
