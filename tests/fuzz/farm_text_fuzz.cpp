// Any bytes as a farm file: load, print the problems, solve, plan its priming, print the answers.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "model/keys/farm_file.h"
#include "render/commands/prime/prime_report.h"
#include "render/commands/solve/json_report.h"
#include "render/commands/solve/table_report.h"
#include "render/words/diagnostic_text.h"
#include "solver/prime/prime.h"
#include "solver/steady/steady.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace leat;
  const std::string_view text(reinterpret_cast<const char*>(bytes), size);
  const model::LoadedFarm loaded = model::load_farm(text, "fuzz.yaml");
  (void)render::problems_text(loaded);
  if (!loaded.farm) {
    return loaded.problems.empty() ? (__builtin_trap(), 0) : 0;
  }
  for (const solver::LoadCase load_case :
       {solver::LoadCase::Needs, solver::LoadCase::Wide, solver::LoadCase::Static}) {
    solver::SteadyOptions options;
    options.load_case = load_case;
    const solver::SteadyAnswer answer = solver::solve_steady(*loaded.farm, options);
    (void)render::solve_json(*loaded.farm, answer, loaded.farm->show);
    if (answer.converged) {
      (void)render::solve_table(*loaded.farm, answer, {}, {});
    }
  }
  const solver::PrimePlan plan = solver::priming_plan(*loaded.farm, {});
  if (plan.is_made()) {
    (void)render::prime_json(*loaded.farm, plan, loaded.farm->show);
    (void)render::prime_table(*loaded.farm, plan, {}, {});
  }
  return 0;
}
