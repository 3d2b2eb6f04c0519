#include "solver/answer/load_case.h"

namespace leat::solver {

const char* word_of(LoadCase load_case) {
  switch (load_case) {
    case LoadCase::Needs:
      return "needs";
    case LoadCase::Wide:
      return "wide";
    case LoadCase::Static:
      return "static";
  }
  return "needs";
}

}  // namespace leat::solver
