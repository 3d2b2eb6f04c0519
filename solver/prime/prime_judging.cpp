#include "solver/prime/prime_judging.h"

#include <algorithm>
#include <set>
#include <string>

#include "solver/network/network_of_farm.h"
#include "solver/network/pipe_geometry.h"

namespace leat::solver {

namespace {

/// Findings with which a line is not to be filled: it would part, gas up or draw air, or its pipe
/// would be sucked flat or burst. A collapse that is a caution still has its wall to spare.
bool is_fatal(const Finding& flag) {
  static const std::set<Code> codes = {Code::Parted,
                                       Code::NearVapour,
                                       Code::BelowVapour,
                                       Code::Breaks,
                                       Code::AirIn,
                                       Code::OverRating};
  return codes.count(flag.code) > 0 ||
         (flag.code == Code::Collapse && flag.severity == Severity::Danger);
}

/// Whether a point of the line lies above the water it starts from.
bool lies_in_suction(const model::Farm& farm,
                     const PrimePlan& plan,
                     std::size_t pipe,
                     double at_m) {
  const PipeCourse course = course_of(farm, farm.pipes[pipe], plan.answer.month);
  return course.at(at_m).elevation_m > plan.course.source_m;
}

/// A vent below the summit's level spills while the line is filled, and on a running siphon's
/// summit it draws air.
std::optional<PrimeRefusal> vent_in_the_way(const model::Farm& farm, const PrimePlan& plan) {
  for (const std::size_t index : plan.course.line.pipes) {
    const model::Pipe& pipe = farm.pipes[index];
    for (const model::Vent& vent : pipe.vents) {
      const bool stands_higher = vent.top && in_metres(*vent.top) >= plan.course.top().elevation_m;
      if (!stands_higher || lies_in_suction(farm, plan, index, in_metres(vent.distance))) {
        return priming::VentInTheWay{pipe.name, in_metres(vent.distance), stands_higher};
      }
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<PrimeRefusal> reason_not_to_fill(const model::Farm& farm, const PrimePlan& plan) {
  const bool fills_itself = plan.course.fills_itself();
  for (const Finding& flag : plan.answer.flags) {
    if (is_fatal(flag)) {
      return priming::FoundUnsafe{flag, flag.code == Code::OverRating && !fills_itself};
    }
  }
  if (fills_itself) {
    return std::nullopt;
  }
  if (auto vent = vent_in_the_way(farm, plan)) {
    return vent;
  }
  if (plan.flow_m3_s.value_or(0.0) < still_flow_m3_s) {
    if (plan.course.source_m <= plan.course.end_m) {
      return priming::EndAboveSource{plan.course.source_m, plan.course.end_m};
    }
    return priming::NothingRuns{};
  }
  return std::nullopt;
}

std::optional<double> least_margin_m(const model::Farm& farm, const PrimePlan& plan) {
  std::optional<double> least;
  const auto take = [&least](double margin) { least = std::min(least.value_or(margin), margin); };
  for (const std::size_t pipe : plan.course.line.pipes) {
    const std::optional<SummitAnswer>& summit = plan.answer.pipes[pipe].summit;
    if (summit && summit->margin_m) {
      take(*summit->margin_m);
    }
  }
  if (plan.course.summit_tee) {
    const Surroundings around = surroundings_of(farm, plan.answer.month);
    const std::optional<double>& tee = plan.answer.places[*plan.course.summit_tee].pressure_Pa;
    if (tee) {
      take(around.head_of_pressure_m(*tee + around.air_pressure_Pa -
                                     around.water.vapour_pressure_Pa));
    }
  }
  return least;
}

}  // namespace leat::solver
