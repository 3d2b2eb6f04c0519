#include "render/words/situation_text.h"

#include <fmt/format.h>

namespace leat::render {

std::string situation_text(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  std::string text =
      farm.datum ? "levels: " + *farm.datum : std::string("datum of levels not said");
  text += std::string("; load case: ") + solver::word_of(answer.load_case);
  if (answer.broken) {
    text += ", the float of " + *answer.broken + " hangs open";
  }
  if (answer.month) {
    text += fmt::format("; month: {}", model::name_of(*answer.month));
    text += answer.month_chosen ? " (the driest)" : "";
  } else {
    text += "; the same in every month";
  }
  return text;
}

}  // namespace leat::render
