#include "solver/line_course.h"

#include <algorithm>
#include <cmath>

#include "solver/network_of_farm.h"
#include "solver/pipe_geometry.h"

namespace leat::solver {

namespace {

double flow_in(const SteadyAnswer& answer, std::size_t pipe) {
  return pipe < answer.pipes.size() ? std::abs(answer.pipes[pipe].flow_m3_s) : 0.0;
}

/// The pipe that carries most of those at a tee, none where there is none that is not taken yet.
template <class Meets>
std::optional<std::size_t> main_pipe(const model::Farm& farm,
                                     const SteadyAnswer& answer,
                                     const std::vector<std::size_t>& taken,
                                     Meets meets) {
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    if (!meets(farm.pipes[i]) || std::find(taken.begin(), taken.end(), i) != taken.end()) {
      continue;
    }
    if (!best || flow_in(answer, i) > flow_in(answer, *best)) {
      best = i;
    }
  }
  return best;
}

bool is_tee(const model::Farm& farm, std::size_t place) {
  return std::holds_alternative<model::Tee>(farm.places[place].data);
}

void follow_pipes(const model::Farm& farm, const SteadyAnswer& answer, LineCourse& line) {
  std::vector<std::size_t>& pipes = line.pipes;
  for (std::size_t tee = farm.pipes[pipes.front()].from; is_tee(farm, tee);) {
    const auto above =
        main_pipe(farm, answer, pipes, [tee](const model::Pipe& pipe) { return pipe.to == tee; });
    if (!above) {
      break;
    }
    pipes.insert(pipes.begin(), *above);
    tee = farm.pipes[*above].from;
  }
  for (std::size_t tee = farm.pipes[pipes.back()].to; is_tee(farm, tee);) {
    const auto below =
        main_pipe(farm, answer, pipes, [tee](const model::Pipe& pipe) { return pipe.from == tee; });
    if (!below) {
      break;
    }
    pipes.push_back(*below);
    tee = farm.pipes[*below].to;
  }
}

void find_branches(const model::Farm& farm, LineCourse& line) {
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    if (std::find(line.pipes.begin(), line.pipes.end(), i) != line.pipes.end()) {
      continue;
    }
    for (const std::size_t of_line : line.pipes) {
      const std::size_t tee = farm.pipes[of_line].to;
      const bool meets = farm.pipes[i].from == tee || farm.pipes[i].to == tee;
      if (is_tee(farm, tee) && meets) {
        line.branches.push_back({tee, i});
        break;
      }
    }
  }
}

}  // namespace

LineCourse line_through(const model::Farm& farm, const SteadyAnswer& answer, std::size_t pipe) {
  LineCourse line;
  line.pipes = {pipe};
  follow_pipes(farm, answer, line);
  line.from = farm.pipes[line.pipes.front()].from;
  line.to = farm.pipes[line.pipes.back()].to;
  for (const std::size_t index : line.pipes) {
    const PipeCourse course = course_of(farm, farm.pipes[index], answer.month);
    for (const CoursePoint& point : course.points) {
      line.points.push_back({index, point.at_m, line.length_m + point.along_m, point.elevation_m});
    }
    line.length_m += course.length_m;
  }
  find_branches(farm, line);
  return line;
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
