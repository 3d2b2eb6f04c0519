#include "solver/findings/trapped_air_finding.h"

#include <algorithm>
#include <optional>
#include <vector>

#include "solver/findings/finding_list.h"
#include "solver/findings/trapped_air.h"
#include "solver/network/pipes_by_place.h"

namespace leat::solver {

namespace {

using hydraulics::AirVerdict;

/// How far the water is from sweeping the leg; the largest is the worst.
double shortfall(const FallingLeg& leg) {
  return leg.sweep.swept_above_m_s - leg.velocity_m_s;
}

/// What pockets hold back when the line is filled from above, where they hold back anything.
std::optional<TrappedAir::Lock> lock_of(const model::Farm& farm,
                                        const SteadyAnswer& answer,
                                        const LineCourse& line) {
  const AirLock lock = air_lock_of(farm, answer, line);
  return lock.pockets == 0 || lock.fall_m <= 0.0
             ? std::nullopt
             : std::optional(TrappedAir::Lock{lock.lifted_m, lock.fall_m});
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

Finding finding_of(const model::Farm& farm,
                   const SteadyAnswer& answer,
                   const FallingLeg& leg,
                   const LineFinder& lines) {
  TrappedAir air;
  if (leg.high.tee) {
    air.high_tee = farm.places[*leg.high.tee].name;
  }
  air.high_pipe = farm.pipes[leg.high.pipe].name;
  air.high = {leg.high.at_m, leg.high.elevation_m};
  air.swept_above_m_s = leg.sweep.swept_above_m_s;
  air.at_an_average = runs_at_an_average(farm, answer, leg.pipe);
  air.steeper_than_tested = leg.sweep.steeper_than_tested;
  air.in_suction = leg.high.pressure_Pa && *leg.high.pressure_Pa < 0.0;
  air.lock = lock_of(farm, answer, lines.through(leg.pipe));
  const bool stays = leg.verdict == AirVerdict::Stays && !air.at_an_average;
  const double limit_m_s = stays ? leg.sweep.stays_below_m_s : leg.sweep.swept_above_m_s;
  return made_finding(stays ? Code::AirStays : Code::AirDoubtful,
                      stays ? Severity::Caution : Severity::Note,
                      farm.pipes[leg.pipe].name,
                      answer.load_case,
                      {leg.velocity_m_s, limit_m_s, Measure::Velocity},
                      air);
}

}  // namespace

std::vector<Finding> air_findings(const model::Farm& farm, const SteadyAnswer& answer) {
  const std::vector<FallingLeg> legs = falling_legs(farm, answer);
  const LineFinder lines(farm, answer);
  std::vector<Finding> findings;
  for (auto first = legs.begin(); first != legs.end();) {
    const auto last = std::find_if(
        first, legs.end(), [first](const FallingLeg& leg) { return leg.pipe != first->pipe; });
    const auto worst = std::max_element(first, last, [](const FallingLeg& a, const FallingLeg& b) {
      return shortfall(a) < shortfall(b);
    });
    if (worst->verdict != AirVerdict::Swept) {
      findings.push_back(finding_of(farm, answer, *worst, lines));
    }
    first = last;
  }
  return findings;
}

}  // namespace leat::solver
