#include "solver/flow/line_course.h"

#include <algorithm>
#include <cmath>

#include "solver/network/network_of_farm.h"
#include "solver/network/pipe_geometry.h"

namespace leat::solver {

namespace {

bool is_tee(const model::Farm& farm, std::size_t place) {
  return model::is_tee(farm.places[place]);
}

}  // namespace

LineFinder::LineFinder(const model::Farm& farm, const SteadyAnswer& answer)
    : farm_(farm), answer_(answer), pipes_of_(farm) {}

/// The pipe that carries most of those that have that end at a tee and are not taken yet.
std::optional<std::size_t> LineFinder::main_pipe(std::size_t tee,
                                                 End end,
                                                 const std::vector<bool>& taken) const {
  std::optional<std::size_t> best;
  const auto flow = [this](std::size_t pipe) { return std::abs(answer_.pipes[pipe].flow_m3_s); };
  for (const std::size_t i : pipes_of_.at(tee)) {
    const bool meets = (end == End::From ? farm_.pipes[i].from : farm_.pipes[i].to) == tee;
    if (meets && !taken[i] && (!best || flow(i) > flow(*best))) {
      best = i;
    }
  }
  return best;
}

std::vector<std::size_t> LineFinder::pipes_through(std::size_t pipe,
                                                   std::vector<bool>& taken) const {
  std::vector<std::size_t> pipes{pipe};
  taken[pipe] = true;
  for (std::size_t tee = farm_.pipes[pipe].from; is_tee(farm_, tee);) {
    const std::optional<std::size_t> above = main_pipe(tee, End::To, taken);
    if (!above) {
      break;
    }
    taken[*above] = true;
    pipes.push_back(*above);
    tee = farm_.pipes[*above].from;
  }
  std::reverse(pipes.begin(), pipes.end());
  for (std::size_t tee = farm_.pipes[pipe].to; is_tee(farm_, tee) && !drives_ram(pipes.back());) {
    const std::optional<std::size_t> below = main_pipe(tee, End::From, taken);
    if (!below) {
      break;
    }
    taken[*below] = true;
    pipes.push_back(*below);
    tee = farm_.pipes[*below].to;
  }
  return pipes;
}

/// Whether a pipe ends in the open air at a ram: the line ends there with it.
bool LineFinder::drives_ram(std::size_t pipe) const {
  return std::any_of(farm_.rams.begin(), farm_.rams.end(), [pipe](const model::Ram& ram) {
    return ram.drive == pipe;
  });
}

LineCourse LineFinder::through(std::size_t pipe) const {
  LineCourse line;
  std::vector<bool> taken(farm_.pipes.size(), false);
  line.pipes = pipes_through(pipe, taken);
  line.from = farm_.pipes[line.pipes.front()].from;
  line.to = farm_.pipes[line.pipes.back()].to;
  for (const std::size_t index : line.pipes) {
    const PipeCourse course = course_of(farm_, farm_.pipes[index], answer_.month);
    for (const CoursePoint& point : course.points) {
      line.points.push_back({index, point.at_m, line.length_m + point.along_m, point.elevation_m});
    }
    line.length_m += course.length_m;
    const std::size_t tee = farm_.pipes[index].to;
    for (const std::size_t other : pipes_of_.at(tee)) {
      if (is_tee(farm_, tee) && !taken[other] && !drives_ram(index)) {
        line.branches.push_back({tee, other});
      }
    }
  }
  return line;
}

LineCourse line_through(const model::Farm& farm, const SteadyAnswer& answer, std::size_t pipe) {
  return LineFinder(farm, answer).through(pipe);
}

double line_source_level_m(const model::Farm& farm,
                           const SteadyAnswer& answer,
                           const LineCourse& line) {
  // A spring box is full when its line is filled, however far the line draws it down afterwards.
  const std::optional<double> surface = surface_m(farm.places[line.from], answer.month);
  return surface ? *surface
                 : answer.places[line.from].level_m.value_or(line.points.front().elevation_m);
}

double line_end_level_m(const model::Farm& farm,
                        const SteadyAnswer& answer,
                        const LineCourse& line) {
  const double end_m = line.points.back().elevation_m;
  if (!model::is_open_water(farm.places[line.to])) {
    return end_m;
  }
  return std::max(end_m, answer.places[line.to].level_m.value_or(end_m));
}

}  // namespace leat::solver
