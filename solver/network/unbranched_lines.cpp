#include "solver/network/unbranched_lines.h"

#include <algorithm>

#include "solver/network/pipes_by_place.h"

namespace leat::solver {

namespace {

/// Tees that join two pipes and do nothing else.
std::vector<bool> joints_of(const model::Farm& farm, const PipesByPlace& pipes_of) {
  std::vector<bool> joints(farm.places.size(), false);
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const std::span<const std::size_t> pipes = pipes_of.at(i);
    joints[i] = model::is_tee(farm.places[i]) && pipes.size() == 2 && pipes[0] != pipes[1];
  }
  for (const model::Pump& pump : farm.pumps) {
    joints[pump.from] = false;
    joints[pump.to] = false;
  }
  for (const model::Ram& ram : farm.rams) {
    joints[farm.pipes[ram.drive].to] = false;
    joints[farm.pipes[ram.delivery].from] = false;
  }
  return joints;
}

}  // namespace

UnbranchedLines::UnbranchedLines(const model::Farm& farm)
    : line_of_pipe_(farm.pipes.size(), farm.pipes.size()), lines_at_(farm.places.size()) {
  const PipesByPlace pipes_of(farm);
  const std::vector<bool> joints = joints_of(farm, pipes_of);
  for (std::size_t first = 0; first < farm.pipes.size(); ++first) {
    if (line_of_pipe_[first] != farm.pipes.size()) {
      continue;
    }
    const std::size_t number = lines_.size();
    line_of_pipe_[first] = number;
    // Walks on from one end of a pipe, and gives the place where the line stops.
    const auto walk = [&](std::size_t place, std::vector<std::size_t>& pipes) {
      while (joints[place]) {
        const std::span<const std::size_t> met = pipes_of.at(place);
        const auto next = std::find_if(met.begin(), met.end(), [&](std::size_t pipe) {
          return line_of_pipe_[pipe] == farm.pipes.size();
        });
        if (next == met.end()) {
          break;
        }
        line_of_pipe_[*next] = number;
        pipes.push_back(*next);
        place = farm.pipes[*next].from == place ? farm.pipes[*next].to : farm.pipes[*next].from;
      }
      return place;
    };
    UnbranchedLine line;
    line.from = walk(farm.pipes[first].from, line.pipes);
    std::reverse(line.pipes.begin(), line.pipes.end());
    line.pipes.push_back(first);
    line.to = walk(farm.pipes[first].to, line.pipes);
    lines_.push_back(std::move(line));
    for (const std::size_t pipe : lines_.back().pipes) {
      for (const std::size_t place : {farm.pipes[pipe].from, farm.pipes[pipe].to}) {
        std::vector<std::size_t>& lines = lines_at_[place];
        if (lines.empty() || lines.back() != number) {
          lines.push_back(number);
        }
      }
    }
  }
}

}  // namespace leat::solver
