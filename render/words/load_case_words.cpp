#include "render/words/load_case_words.h"

namespace leat::render {

std::string_view heading_of(solver::LoadCase load_case) {
  switch (load_case) {
    case solver::LoadCase::Needs:
      return "case needs: each trough takes at most its need, a day's average";
    case solver::LoadCase::Wide:
      return "case wide: every float wide open, every open end running";
    case solver::LoadCase::Static:
      return "case static: every end shut, the water standing";
  }
  return "";
}

std::string_view meaning_of(solver::LoadCase load_case) {
  switch (load_case) {
    case solver::LoadCase::Needs:
      return "each trough taking at most its need";
    case solver::LoadCase::Wide:
      return "with every float wide open";
    case solver::LoadCase::Static:
      return "with every end shut";
  }
  return "";
}

}  // namespace leat::render
