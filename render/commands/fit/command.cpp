#include "render/commands/fit/command.h"

#include <optional>

#include <fmt/format.h>

#include "render/commands/command_parts.h"
#include "render/commands/fit/fit_report.h"
#include "render/commands/shared_options.h"
#include "render/words/diagnostic_text.h"
#include "render/words/fit_causes.h"
#include "render/words/fit_next.h"
#include "solver/fit/farm_with_cause.h"
#include "solver/fit/fit.h"

namespace leat::render {

namespace {

/// Writes the copy with the likeliest cause in it, or says why that cannot be.
std::optional<model::Diagnostic> write_copy(const FitCommand& asked,
                                            const model::LoadedFarm& loaded,
                                            const solver::FitAnswer& answer,
                                            CommandResult& result) {
  const solver::CopyWithCause copy = solver::farm_with_cause(loaded, answer);
  if (copy.refusal) {
    const CopyProblem why = copy_problem(*loaded.farm, answer, copy);
    return problem_of("cannot-write-cause", why.text, why.hint);
  }
  if (auto problem = writing_problem(asked.output, copy.text)) {
    return problem;
  }
  result.err += fmt::format("wrote {}: the farm with a {} at {}\n",
                            asked.output.file,
                            name_of(copy.cause->kind),
                            where_of(*loaded.farm, *copy.cause));
  return std::nullopt;
}

}  // namespace

CommandHead FitCommand::head() const {
  return {"fit",
          "Why you measured less: what explains the readings in FILE, and what to measure next.",
          "  leat fit my-farm.yaml\n  leat fit my-farm.yaml --write with-blocked-screen.yaml\n"};
}

std::vector<Option> FitCommand::farm_options() {
  return {csv_option(the_only_table, csv),
          case_option("wide (the usual: floats held open) or needs", {"needs", "wide"}, load_case),
          new_farm_option("a copy of FILE with the likeliest cause in it", output.file),
          month_option(month),
          units_option(units),
          replace_option(output)};
}

std::optional<UsageProblem> FitCommand::check() const {
  if (auto problem = FarmCommand::check()) {
    return problem;
  }
  if (load_case == solver::LoadCase::Static) {
    return UsageProblem{std::nullopt,
                        "bad-value",
                        "--case cannot be 'static' here: nothing runs",
                        "write wide or needs"};
  }
  if (output.is_stdout()) {
    return bad_value("--write", output.file, "write the name of a new file");
  }
  return std::nullopt;
}

CommandResult FitCommand::answer(const model::LoadedFarm& loaded, const Terminal& terminal) const {
  const model::Farm& farm = *loaded.farm;
  solver::FitOptions options;
  options.load_case = load_case;
  options.month = month;
  options.units = units;
  const solver::FitAnswer answer = solver::fit(farm, options);
  if (!answer.answer.converged) {
    return failure(*this, answer.answer.problems, loaded);
  }
  if (!answer.result.solved) {
    return failure(*this,
                   {problem_of("not-solved",
                               "no balance of heads and flows was found for a month that was "
                               "measured in",
                               "try leat solve with --month")},
                   loaded);
  }
  CommandResult result;
  result.code = exit_code_of(answer.answer);
  result.err = problems_text(loaded.problems, loaded);
  switch (form()) {
    case AnswerForm::Json:
      result.out = fit_json(farm, answer, units_for(farm));
      break;
    case AnswerForm::Csv:
      result.out = fit_csv(farm, answer);
      break;
    case AnswerForm::Screen:
      result.out = fit_table(farm, answer, {units_for(farm), Detail::Short}, terminal);
      break;
  }
  if (!output.is_asked()) {
    return result;
  }
  if (const auto problem = write_copy(*this, loaded, answer, result)) {
    CommandResult failed = failure(*this, {*problem}, loaded);
    failed.out = json ? failed.out : result.out;
    return failed;
  }
  return result;
}

}  // namespace leat::render
