#include "render/commands/fit/fit_command.h"

#include <optional>

#include <fmt/format.h>

#include "render/commands/command_parts.h"
#include "render/commands/fit/fit_report.h"
#include "render/io/output_file.h"
#include "render/words/diagnostic_text.h"
#include "render/words/fit_causes.h"
#include "render/words/fit_next.h"
#include "solver/fit/farm_with_cause.h"
#include "solver/fit/fit.h"

namespace leat::render {

namespace {

/// Writes the copy with the likeliest cause in it, or says why that cannot be.
std::optional<model::Diagnostic> write_copy(const CommandLine& line,
                                            const model::LoadedFarm& loaded,
                                            const solver::FitAnswer& answer,
                                            CommandResult& result) {
  const solver::CopyWithCause copy = solver::farm_with_cause(loaded, answer);
  if (copy.refusal) {
    const CopyProblem why = copy_problem(*loaded.farm, answer, copy);
    return problem_of("cannot-write-cause", why.text, why.hint);
  }
  if (const auto problem = write_output_file(line.output, copy.text, line.existing)) {
    return problem_of(problem->code, problem->text, problem->hint);
  }
  result.err += fmt::format("wrote {}: the farm with a {} at {}\n",
                            line.output,
                            name_of(copy.cause->kind),
                            where_of(*loaded.farm, *copy.cause));
  return std::nullopt;
}

}  // namespace

CommandResult fit_command(const CommandLine& line,
                          const model::LoadedFarm& loaded,
                          const Terminal& terminal) {
  const model::Farm& farm = *loaded.farm;
  solver::FitOptions options;
  options.load_case = line.load_case;
  options.month = line.month;
  options.units = line.units;
  const solver::FitAnswer answer = solver::fit(farm, options);
  if (!answer.answer.converged) {
    return failure(line, answer.answer.problems, loaded);
  }
  if (!answer.result.solved) {
    return failure(line,
                   {problem_of("not-solved",
                               "no balance of heads and flows was found for a month that was "
                               "measured in",
                               "try leat solve with --month")},
                   loaded);
  }
  const model::UnitSystem units = line.units.value_or(farm.show);
  CommandResult result;
  result.code = exit_code_of(answer.answer);
  result.err = problems_text(loaded.problems, loaded);
  if (line.form == OutputForm::Json) {
    result.out = fit_json(farm, answer, units);
  } else if (line.form == OutputForm::CsvCatalogue) {
    result.out = fit_csv(farm, answer);
  } else {
    result.out = fit_table(farm, answer, {units, line.detail}, terminal);
  }
  if (line.output.empty()) {
    return result;
  }
  if (const auto problem = write_copy(line, loaded, answer, result)) {
    CommandResult failed = failure(line, {*problem}, loaded);
    failed.out = line.form == OutputForm::Json ? failed.out : result.out;
    return failed;
  }
  return result;
}

}  // namespace leat::render
