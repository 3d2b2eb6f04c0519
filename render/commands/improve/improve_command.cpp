#include "render/commands/improve/improve_command.h"

#include "render/commands/command_parts.h"
#include "render/commands/improve/improve_report.h"
#include "render/words/diagnostic_text.h"
#include "solver/improve/improve.h"

namespace leat::render {

CommandResult improve_command(const CommandLine& line,
                              const model::LoadedFarm& loaded,
                              const Terminal& terminal) {
  const model::Farm& farm = *loaded.farm;
  solver::ImproveOptions options;
  options.place = line.for_place;
  options.load_case = line.load_case;
  options.month = line.month;
  options.units = line.units;
  options.sensitivities = line.sensitivities;
  const solver::ImprovePlan plan = solver::improve_plan(farm, options);
  if (!plan.problems.empty()) {
    return failure(line, plan.problems, loaded);
  }
  CommandResult result;
  result.code = exit_code_of(plan.answer.converged, plan.flags);
  result.err = problems_text(loaded.problems, loaded);
  if (line.form == OutputForm::Json) {
    result.out = improve_json(farm, plan, line.units.value_or(farm.show));
  } else if (line.form == OutputForm::CsvChanges) {
    result.out = improve_csv(plan);
  } else {
    result.out = improve_table(farm, plan, {line.units.value_or(farm.show), line.detail}, terminal);
  }
  return result;
}

}  // namespace leat::render
