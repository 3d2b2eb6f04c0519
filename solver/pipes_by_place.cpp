#include "solver/pipes_by_place.h"

#include <numeric>

namespace leat::solver {

PipesByPlace::PipesByPlace(const model::Farm& farm) : first_(farm.places.size() + 1, 0) {
  for (const model::Pipe& pipe : farm.pipes) {
    ++first_[pipe.from + 1];
    ++first_[pipe.to + 1];
  }
  std::partial_sum(first_.begin(), first_.end(), first_.begin());
  pipes_.resize(2 * farm.pipes.size());
  std::vector<std::size_t> next(first_.begin(), first_.end() - 1);
  for (std::size_t pipe = 0; pipe < farm.pipes.size(); ++pipe) {
    pipes_[next[farm.pipes[pipe].from]++] = pipe;
    pipes_[next[farm.pipes[pipe].to]++] = pipe;
  }
}

}  // namespace leat::solver
