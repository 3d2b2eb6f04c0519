#include "render/commands/read/command.h"

#include "render/commands/read/read_report.h"
#include "render/commands/shared_options.h"
#include "render/words/diagnostic_text.h"

namespace leat::render {

CommandHead ReadCommand::head() const {
  return {"read",
          "Show what was understood of FILE: bores, losses, levels, needs, assumptions.",
          "  leat read my-farm.yaml\n  leat read my-farm.yaml --month Aug --csv\n"};
}

std::vector<Option> ReadCommand::farm_options() {
  return {csv_option("pipes", csv), month_option(month), units_option(units)};
}

CommandResult ReadCommand::answer(const model::LoadedFarm& loaded, const Terminal& terminal) const {
  const model::Farm& farm = *loaded.farm;
  CommandResult result;
  result.err = problems_text(loaded.problems, loaded);
  switch (form()) {
    case AnswerForm::Json:
      result.out = read_json(farm, month);
      break;
    case AnswerForm::Csv:
      result.out = read_csv(farm, month);
      break;
    case AnswerForm::Screen:
      result.out = read_table(farm, {units_for(farm), month}, terminal);
      break;
  }
  return result;
}

}  // namespace leat::render
