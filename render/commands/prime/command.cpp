#include "render/commands/prime/command.h"

#include "render/commands/command_parts.h"
#include "render/commands/prime/prime_report.h"
#include "render/commands/shared_options.h"
#include "render/words/diagnostic_text.h"
#include "render/words/prime_verdict.h"
#include "solver/prime/prime.h"

namespace leat::render {

CommandHead PrimeCommand::head() const {
  return {
      "prime",
      "How to prime a siphon: steps, water to have ready, pump, air. Takes PIPE after FILE.",
      "  leat prime my-farm.yaml\n  leat prime my-farm.yaml \"creek line\" --fill \"5 gal/min\"\n"};
}

std::vector<Option> PrimeCommand::farm_options() {
  return {
      name_argument("PIPE", "a pipe of the line; the one that climbs highest if not given", pipe),
      flow_option({"--fill"}, "how fast water can be poured or pumped in: \"5 gal/min\"", fill),
      pressure_option({"--pump"}, "the most pressure the fill pump gives: \"40 psi\"", pump),
      month_option(month),
      units_option(units)};
}

CommandResult PrimeCommand::answer(const model::LoadedFarm& loaded,
                                   const Terminal& terminal) const {
  const model::Farm& farm = *loaded.farm;
  solver::PrimeOptions options;
  options.pipe = pipe;
  options.month = month;
  if (fill) {
    options.fill_m3_s = in_cubic_metres_per_second(*fill);
  }
  if (pump) {
    options.shut_off_Pa = in_pascals(*pump);
  }
  const solver::PrimePlan plan = solver::priming_plan(farm, options);
  if (!plan.is_made()) {
    return failure(*this, prime_problems(farm, plan), loaded);
  }
  CommandResult result;
  result.code = exit_code_of(plan.answer);
  result.err = problems_text(loaded.problems, loaded);
  result.out = json ? prime_json(farm, plan, units_for(farm))
                    : prime_table(farm, plan, {units_for(farm), Detail::Short}, terminal);
  return result;
}

}  // namespace leat::render
