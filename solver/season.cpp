#include "solver/season.h"

namespace leat::solver {

SeasonAnswer run_season(const model::Farm& farm,
                        const SeasonOptions& options,
                        const Progress& progress) {
  static_cast<void>(farm);
  static_cast<void>(progress);
  SeasonAnswer answer;
  answer.step_s = options.step_s;
  return answer;
}

}  // namespace leat::solver
