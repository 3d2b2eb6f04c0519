#include "render/commands/improve/command.h"

#include "render/commands/command_parts.h"
#include "render/commands/improve/improve_report.h"
#include "render/commands/shared_options.h"
#include "render/words/diagnostic_text.h"
#include "render/words/improve.h"
#include "solver/improve/improve.h"

namespace leat::render {

CommandHead ImproveCommand::head() const {
  return {"improve",
          "What one change helps the trough that goes short most, and the best two together.",
          "  leat improve my-farm.yaml\n  leat improve my-farm.yaml --for \"top trough\" --month "
          "Aug\n"};
}

std::vector<Option> ImproveCommand::farm_options() {
  return {
      csv_option("changes", csv),
      name_option({"--for"}, "PLACE", "trough, outlet or pond; the worst off if not given", place),
      case_option("needs (the usual) or wide", {"needs", "wide"}, load_case),
      switch_option(
          {"--sensitivities"}, "show what small changes do, to first order", sensitivities),
      verbose_option("list every change solved, not only those that help", verbose),
      month_option(month),
      units_option(units)};
}

CommandResult ImproveCommand::answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const {
  const model::Farm& farm = *loaded.farm;
  solver::ImproveOptions options;
  options.place = place;
  options.load_case = load_case;
  options.month = month;
  options.units = units;
  options.sensitivities = sensitivities;
  const solver::ImprovePlan plan = solver::improve_plan(farm, options);
  if (plan.refusal) {
    return failure(*this, {improve_problem(*plan.refusal, farm)}, loaded);
  }
  if (!plan.problems.empty()) {
    return failure(*this, plan.problems, loaded);
  }
  CommandResult result;
  result.code = exit_code_of(plan.answer.converged, plan.flags);
  result.err = problems_text(loaded.problems, loaded);
  switch (form()) {
    case AnswerForm::Json:
      result.out = improve_json(farm, plan, units_for(farm));
      break;
    case AnswerForm::Csv:
      result.out = improve_csv(farm, plan, units_for(farm));
      break;
    case AnswerForm::Screen:
      result.out = improve_table(
          farm, plan, {units_for(farm), verbose ? Detail::Verbose : Detail::Short}, terminal);
      break;
  }
  return result;
}

}  // namespace leat::render
