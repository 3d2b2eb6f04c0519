#include "solver/prime/prime_words.h"

#include <cmath>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "solver/network/pipe_geometry.h"

namespace leat::solver {

std::string quoted(const std::string& name) {
  return '\'' + name + '\'';
}

double standing_pressure_Pa(const PrimePlan& plan, const LinePoint& point) {
  return (plan.course.top().elevation_m - point.elevation_m) * plan.answer.density_kg_m3 *
         gravity_m_s2;
}

bool must_fit_valve(const model::Farm& farm, const PrimePlan& plan) {
  const LinePoint& end = plan.course.line.points.back();
  const double pressure_Pa = standing_pressure_Pa(plan, end);
  switch (plan.course.outlet.kind) {
    case EndClosure::Kind::Cap:
      return pressure_Pa > most_on_a_cap_Pa || plan.course.end_m - end.elevation_m > under_water_m;
    case EndClosure::Kind::Float: {
      const auto& trough = std::get<model::Trough>(farm.places[plan.course.line.to].data);
      return trough.closes_against && in_pascals(*trough.closes_against) < pressure_Pa;
    }
    case EndClosure::Kind::Valve:
    case EndClosure::Kind::OneWay:
      break;
  }
  return false;
}

bool must_fit_foot_valve(const PrimePlan& plan) {
  return plan.course.inlet.kind == EndClosure::Kind::Cap &&
         standing_pressure_Pa(plan, plan.course.line.points.front()) > most_on_a_cap_Pa;
}

std::string filling_speed(double velocity_m_s, model::UnitSystem units) {
  // 0.3 m/s is a round figure, and its feet should be one too.
  const bool is_usual = std::abs(velocity_m_s - fastest_filling_m_s) < 1e-6;
  return is_usual && units == model::UnitSystem::Us ? "1 ft/s"
                                                    : spoken_velocity(velocity_m_s, units);
}

std::string point_words(const model::Farm& farm,
                        const PrimeCourse& course,
                        std::size_t point,
                        const std::string& what,
                        model::UnitSystem units) {
  const LinePoint& where = course.line.points[point];
  const std::string level = spoken_level(where.elevation_m, units);
  if (point == course.summit && course.summit_tee) {
    return fmt::format("{} at {} ({})", what, quoted(farm.places[*course.summit_tee].name), level);
  }
  return fmt::format("{} of {} at {} ({})",
                     what,
                     quoted(farm.pipes[where.pipe].name),
                     spoken_length(where.at_m, units),
                     level);
}

void PrimeWords::step(std::string where,
                      std::string text,
                      std::optional<double> volume_m3,
                      std::optional<double> time_s,
                      PrimeStep::Kind kind) {
  steps_.push_back({std::move(where), std::move(text), volume_m3, time_s, kind});
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
    const std::string tee = quoted(place_name(branch.tee));
    const model::Pipe& pipe = farm_.pipes[branch.pipe];
    const std::string name = quoted(pipe.name);
    if (pipe.valve && pipe.valve->shut && has_valve_at(branch)) {
      step(place_name(branch.tee),
           fmt::format("See that the valve of {} at {} is shut, as the file has it.", name, tee));
      continue;
    }
    if (has_valve_at(branch)) {
      step(place_name(branch.tee),
           fmt::format("Shut the valve of {} at {}: only the line itself is filled.", name, tee));
      continue;
    }
    step(place_name(branch.tee),
         fmt::format("{} has no valve at {}: put one in and shut it. Left open it takes water and "
                     "keeps air ({} more, if its far end is shut), and the line cannot be stopped "
                     "while it runs.",
                     name,
                     tee,
                     volume(in_square_metres(bore_area(pipe.size.bore)) * in_metres(pipe.length))));
  }
}

void PrimeWords::let_in(const LineBranch& branch) {
  const std::string tee = quoted(place_name(branch.tee));
  const model::Pipe& pipe = farm_.pipes[branch.pipe];
  step(place_name(branch.tee),
       pipe.from == branch.tee
           ? fmt::format("When the line runs steadily, let water into {} at {}, slowly, its far "
                         "end open so that the air leaves there.",
                         quoted(pipe.name),
                         tee)
           : fmt::format("When the line runs steadily, let {} bring its water to {} again.",
                         quoted(pipe.name),
                         tee));
}

bool PrimeWords::runs_with_the_line(const LineBranch& branch) const {
  const std::optional<model::Valve>& valve = farm_.pipes[branch.pipe].valve;
  return !valve || !valve->shut;  // else it stays as the file has it
}

void PrimeWords::open_branches() {
  for (const LineBranch& branch : course_.line.branches) {
    if (runs_with_the_line(branch)) {
      let_in(branch);
    }
  }
}

std::string PrimeWords::shut_off_words() const {
  std::string words;
  for (const LineBranch& branch : course_.line.branches) {
    if (runs_with_the_line(branch)) {
      words += fmt::format("{}{} at {}",
                           words.empty() ? "shut off " : " and ",
                           quoted(pipe_name(branch.pipe)),
                           quoted(place_name(branch.tee)));
    }
  }
  return words;
}

}  // namespace leat::solver
