// Any bytes as the list `measured` of a sound farm: read, explained, printed.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "model/keys/farm_file.h"
#include "render/commands/fit/fit_report.h"
#include "render/words/diagnostic_text.h"
#include "solver/fit/fit.h"
#include "tests/fuzz/page_farm.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace leat;
  const std::string_view text(reinterpret_cast<const char*>(bytes), size);
  const std::string whole = std::string(fuzz::page_farm) + "measured:\n" + std::string(text);
  const model::LoadedFarm loaded = model::load_farm(whole, "fuzz.yaml");
  (void)render::problems_text(loaded);
  if (!loaded.farm) {
    return loaded.problems.empty() ? (__builtin_trap(), 0) : 0;
  }
  constexpr std::size_t most = 6;  // each reading costs a search
  if (loaded.farm->measured.size() > most) {
    return 0;
  }
  const solver::FitAnswer answer = solver::fit(*loaded.farm, {});
  if (answer.answer.converged && answer.result.solved) {
    (void)render::fit_json(*loaded.farm, answer, loaded.farm->show);
    (void)render::fit_csv(*loaded.farm, answer);
    (void)render::fit_table(*loaded.farm, answer, {}, {});
  }
  return 0;
}
