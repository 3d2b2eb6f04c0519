#include "solver/findings/trapped_air_finding.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "solver/findings/trapped_air.h"
#include "solver/network/pipes_by_place.h"

namespace leat::solver {

namespace {

using hydraulics::AirVerdict;

/// How far the water is from sweeping the leg; the largest is the worst.
double shortfall(const FallingLeg& leg) {
  return leg.sweep.swept_above_m_s - leg.velocity_m_s;
}

std::string high_point_words(const model::Farm& farm,
                             const HighPoint& high,
                             model::UnitSystem units) {
  const std::string level = spoken_level(high.elevation_m, units);
  if (high.tee) {
    return fmt::format("{} ({})", farm.places[*high.tee].name, level);
  }
  return fmt::format("the high point of {} at {} ({})",
                     farm.pipes[high.pipe].name,
                     spoken_length(high.at_m, units),
                     level);
}

/// What pockets hold back when the line is filled from above, where they hold back anything.
std::string lock_words(const model::Farm& farm,
                       const SteadyAnswer& answer,
                       const LineCourse& line,
                       model::UnitSystem units) {
  const AirLock lock = air_lock_of(farm, answer, line);
  if (lock.pockets == 0 || lock.fall_m <= 0.0) {
    return "";
  }
  const std::string lifted = spoken_length(lock.lifted_m, units);
  const std::string fall = spoken_length(lock.fall_m, units);
  return lock.starts()
             ? fmt::format(
                   ". Filled from its upper end with nothing opened, trapped air can hold "
                   "back {} of water out of a fall of {}",
                   lifted,
                   fall)
             : fmt::format(
                   ". Filled from its upper end with nothing opened, trapped air can hold "
                   "back {} of water, but the fall is only {}: it does not start",
                   lifted,
                   fall);
}

/// Whether a place is a trough whose float holds the flow back to what is needed: in the case
/// `needs` that is a day's average, and the water comes and goes faster than that.
bool is_satisfied_trough(const model::Farm& farm, const SteadyAnswer& answer, std::size_t place) {
  return std::holds_alternative<model::Trough>(farm.places[place].data) &&
         answer.places[place].met.value_or(0.0) >= 1.0;
}

/// Whether all water of a pipe ends at such troughs.
bool runs_at_an_average(const model::Farm& farm, const SteadyAnswer& answer, std::size_t pipe) {
  if (answer.load_case != LoadCase::Needs) {
    return false;
  }
  std::vector<std::size_t> open{answer.pipes[pipe].flow_m3_s > 0.0 ? farm.pipes[pipe].to
                                                                   : farm.pipes[pipe].from};
  const PipesByPlace pipes_of(farm);
  std::vector<bool> seen(farm.places.size(), false);
  while (!open.empty()) {
    const std::size_t place = open.back();
    open.pop_back();
    if (seen[place] || is_satisfied_trough(farm, answer, place)) {
      continue;
    }
    seen[place] = true;
    if (!std::holds_alternative<model::Tee>(farm.places[place].data)) {
      return false;
    }
    for (const std::size_t i : pipes_of.at(place)) {
      const double flow = answer.pipes[i].flow_m3_s;
      if (flow > 0.0 && farm.pipes[i].from == place) {
        open.push_back(farm.pipes[i].to);
      } else if (flow < 0.0 && farm.pipes[i].to == place) {
        open.push_back(farm.pipes[i].from);
      }
    }
  }
  return true;
}

Flag flag_of(const model::Farm& farm,
             const SteadyAnswer& answer,
             const FallingLeg& leg,
             const LineFinder& lines,
             model::UnitSystem units) {
  const bool at_an_average = runs_at_an_average(farm, answer, leg.pipe);
  const bool stays = leg.verdict == AirVerdict::Stays && !at_an_average;
  const bool in_suction = leg.high.pressure_Pa && *leg.high.pressure_Pa < 0.0;
  Flag flag;
  flag.code = stays ? "air-stays" : "air-doubtful";
  flag.severity = stays ? FlagSeverity::Caution : FlagSeverity::Note;
  flag.where = farm.pipes[leg.pipe].name;
  flag.text = fmt::format(
      "{} at {}: in {} the water runs down from there at {}{}, and {} is needed to sweep air "
      "out{}. "
      "Bleed it there{}{}",
      stays ? "air stays" : "it is doubtful whether air is swept out",
      high_point_words(farm, leg.high, units),
      flag.where,
      spoken_velocity(leg.velocity_m_s, units),
      at_an_average ? ", a day's average (--case wide shows it with the floats open)" : "",
      spoken_velocity(leg.sweep.swept_above_m_s, units),
      leg.sweep.steeper_than_tested ? " (it falls more steeply than anybody has tested)" : "",
      in_suction
          ? " by hand with the line stopped; a vent there would let air in, since it runs in "
            "suction"
          : "",
      lock_words(farm, answer, lines.through(leg.pipe), units));
  flag.value = leg.velocity_m_s;
  flag.limit = stays ? leg.sweep.stays_below_m_s : leg.sweep.swept_above_m_s;
  flag.unit = "m/s";
  flag.load_case = answer.load_case;
  return flag;
}

}  // namespace

std::vector<Flag> air_flags(const model::Farm& farm,
                            const SteadyAnswer& answer,
                            model::UnitSystem units) {
  const std::vector<FallingLeg> legs = falling_legs(farm, answer);
  const LineFinder lines(farm, answer);
  std::vector<Flag> flags;
  for (auto first = legs.begin(); first != legs.end();) {
    const auto last = std::find_if(
        first, legs.end(), [first](const FallingLeg& leg) { return leg.pipe != first->pipe; });
    const auto worst = std::max_element(first, last, [](const FallingLeg& a, const FallingLeg& b) {
      return shortfall(a) < shortfall(b);
    });
    if (worst->verdict != AirVerdict::Swept) {
      flags.push_back(flag_of(farm, answer, *worst, lines, units));
    }
    first = last;
  }
  return flags;
}

}  // namespace leat::solver
