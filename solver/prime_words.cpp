#include "solver/prime_words.h"

#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "solver/pipe_geometry.h"
#include "solver/spoken_amount.h"

namespace leat::solver {

std::string point_words(const model::Farm& farm,
                        const PrimeCourse& course,
                        std::size_t point,
                        const std::string& what,
                        model::UnitSystem units) {
  const LinePoint& where = course.line.points[point];
  const std::string level = spoken_level(where.elevation_m, units);
  if (point == course.summit && course.summit_tee) {
    return fmt::format("{} at {} ({})", what, farm.places[*course.summit_tee].name, level);
  }
  return fmt::format("{} of {} at {} ({})",
                     what,
                     farm.pipes[where.pipe].name,
                     spoken_length(where.at_m, units),
                     level);
}

void PrimeWords::step(std::string where,
                      std::string text,
                      std::optional<double> volume_m3,
                      std::optional<double> time_s) {
  steps_.push_back({std::move(where), std::move(text), volume_m3, time_s});
}

std::string PrimeWords::volume(double volume_m3) const {
  return spoken_volume(volume_m3, units_);
}

/// Whether a branch has a valve at the tee itself: one further down lets it fill as far.
bool PrimeWords::has_valve_at(const LineBranch& branch) const {
  const model::Pipe& pipe = farm_.pipes[branch.pipe];
  if (!pipe.valve || !pipe.valve->place) {
    return false;
  }
  constexpr double near_share = 0.02;
  const PipeCourse course = course_of(farm_, pipe, plan_.answer.month);
  const double first_m = course.points.front().at_m;
  const double last_m = course.points.back().at_m;
  const double tee_m = pipe.from == branch.tee ? first_m : last_m;
  const double valve_m = distance_of(*pipe.valve->place, course);
  return std::abs(valve_m - tee_m) <= near_share * (last_m - first_m);
}

void PrimeWords::shut_branches() {
  for (const LineBranch& branch : course_.line.branches) {
    const std::string& tee = farm_.places[branch.tee].name;
    const model::Pipe& pipe = farm_.pipes[branch.pipe];
    if (pipe.valve && pipe.valve->shut && has_valve_at(branch)) {
      step(tee,
           fmt::format(
               "See that the valve of {} at {} is shut, as the file has it.", pipe.name, tee));
      continue;
    }
    if (has_valve_at(branch)) {
      step(tee,
           fmt::format(
               "Shut the valve of {} at {}: only the line itself is filled.", pipe.name, tee));
      continue;
    }
    step(tee,
         fmt::format("{} has no valve at {}: put one in and shut it, or take {} off there and cap "
                     "the tee. Left open it takes water and keeps air: {} more, if its far end is "
                     "shut.",
                     pipe.name,
                     tee,
                     pipe.name,
                     volume(in_square_metres(bore_area(pipe.size.bore)) * in_metres(pipe.length))));
  }
}

void PrimeWords::let_in(const LineBranch& branch) {
  const std::string& tee = farm_.places[branch.tee].name;
  const model::Pipe& pipe = farm_.pipes[branch.pipe];
  step(tee,
       pipe.from == branch.tee
           ? fmt::format("When the line runs steadily, let water into {} at {}, slowly, its far "
                         "end open so that the air leaves there.",
                         pipe.name,
                         tee)
           : fmt::format("When the line runs steadily, let {} bring its water to {} again.",
                         pipe.name,
                         tee));
}

void PrimeWords::open_branches() {
  for (const LineBranch& branch : course_.line.branches) {
    const model::Pipe& pipe = farm_.pipes[branch.pipe];
    if (!pipe.valve || !pipe.valve->shut) {  // else it stays as the file has it
      let_in(branch);
    }
  }
}

}  // namespace leat::solver
