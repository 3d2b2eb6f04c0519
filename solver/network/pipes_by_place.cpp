#include "solver/network/pipes_by_place.h"

#include <numeric>

namespace leat::solver {

PipesByPlace::PipesByPlace(const model::Farm& farm) : first_(farm.places.size() + 1, 0) {
  std::vector<bool> drives(farm.pipes.size(), false);
  for (const model::Ram& ram : farm.rams) {
    drives[ram.drive] = true;
  }
  for (std::size_t pipe = 0; pipe < farm.pipes.size(); ++pipe) {
    ++first_[farm.pipes[pipe].from + 1];
    first_[farm.pipes[pipe].to + 1] += drives[pipe] ? 0U : 1U;
  }
  std::partial_sum(first_.begin(), first_.end(), first_.begin());
  pipes_.resize(first_.back());
  std::vector<std::size_t> next(first_.begin(), first_.end() - 1);
  for (std::size_t pipe = 0; pipe < farm.pipes.size(); ++pipe) {
    pipes_[next[farm.pipes[pipe].from]++] = pipe;
    if (!drives[pipe]) {
      pipes_[next[farm.pipes[pipe].to]++] = pipe;
    }
  }
}

std::vector<bool> joined_by_pipes(const model::Farm& farm, std::vector<bool> marked) {
  for (bool grows = true; grows;) {
    grows = false;
    for (const model::Pipe& pipe : farm.pipes) {
      if (marked[pipe.from] != marked[pipe.to]) {
        marked[pipe.from] = true;
        marked[pipe.to] = true;
        grows = true;
      }
    }
  }
  return marked;
}

}  // namespace leat::solver
