#include "solver/prime/prime_remarks.h"

#include <algorithm>
#include <variant>

#include "solver/findings/states.h"

namespace leat::solver {

namespace {

using Remarks = std::vector<PrimeRemark>;

void slow_filling(const PrimePlan& plan, const PrimeOptions& options, Remarks& remarks) {
  if (options.fill_m3_s && *options.fill_m3_s > plan.rate.fastest_m3_s) {
    remarks.push_back(priming::PourSlower{*options.fill_m3_s,
                                          plan.rate.fastest_m3_s / plan.course.narrowest_area_m2,
                                          plan.rate.fill_m3_s});
  }
}

/// Whether a pump at the lower end does what a step does. Where a valve is fitted there, that stays
/// shut or open by the plan's own steps, and only the pouring is replaced.
bool is_done_by_pump(const PrimeAction& action, bool has_fitted_valve) {
  const bool pours = std::holds_alternative<priming::Pour>(action) ||
                     std::holds_alternative<priming::PourOn>(action);
  const bool shuts = std::holds_alternative<priming::CloseOutlet>(action) ||
                     std::holds_alternative<priming::ShutOutlet>(action);
  return pours || (shuts && !has_fitted_valve);
}

/// What the pump the user named would do.
std::optional<priming::OwnPump> own_pump(const PrimePlan& plan, const PrimeOptions& options) {
  const FillPump& pump = *plan.pump;
  if (!pump.reaches_m) {
    return std::nullopt;
  }
  priming::OwnPump own;
  own.shut_off_Pa = *options.shut_off_Pa;
  own.reaches_m = *pump.reaches_m;
  own.short_m = plan.course.top().elevation_m - *pump.reaches_m;
  own.is_too_strong = pump.has_limit && *options.shut_off_Pa > pump.most_Pa;
  return own;
}

void pump_instead(const model::Farm& farm,
                  const PrimePlan& plan,
                  const PrimeOptions& options,
                  Remarks& remarks) {
  if (plan.outlet.at_float) {
    remarks.push_back(priming::FloatBarsPump{});
    return;
  }
  const FillPump& pump = *plan.pump;
  priming::PumpInstead instead;
  instead.draws_at_end = model::is_natural_water(farm.places[plan.course.line.to]);
  instead.barrel_m3 = water_to_have_ready * plan.course.volume_m3;
  const bool has_fitted_valve = plan.outlet.by == OutletClosing::By::FittedValve;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    if (is_done_by_pump(plan.steps[i].action, has_fitted_valve)) {
      instead.replaces.push_back(i + 1);
    }
  }
  instead.needed_Pa = pump.needed_Pa;
  instead.rate_m3_s = plan.rate.pump_m3_s;
  if (pump.has_limit) {
    instead.limit = {pump.most_Pa, farm.pipes[pump.limit_pipe].name, pump.limit_at_m};
  }
  instead.own = own_pump(plan, options);
  remarks.push_back(std::move(instead));
}

void foot_valve(const PrimePlan& plan, Remarks& remarks) {
  if (plan.inlet.by == InletClosing::By::FittedFootValve) {
    remarks.push_back(priming::FootValveToFit{});
  } else if (plan.flow_without_foot_valve_m3_s) {
    remarks.push_back(
        priming::FootValvePrice{plan.flow_m3_s.value_or(0.0), *plan.flow_without_foot_valve_m3_s});
  } else {
    remarks.push_back(priming::NoFootValve{plan.inlet.by == InletClosing::By::Valve &&
                                           plan.outlet.by == OutletClosing::By::Valve});
  }
}

void parted(const PrimePlan& plan, Remarks& remarks) {
  const std::vector<Finding>& flags = plan.answer.flags;
  if (std::any_of(flags.begin(), flags.end(), [](const Finding& flag) {
        return flag.code == Code::Parted;
      })) {
    remarks.push_back(priming::PartedFlow{plan.answer.pipes[plan.course.top().pipe].flow_m3_s});
  }
}

void air_lock(const PrimePlan& plan, Remarks& remarks) {
  const AirLock& lock = plan.lock;
  if (lock.pockets > 0 && plan.need == PrimeNeed::FillsItself && lock.fall_m > 0.0) {
    remarks.push_back(priming::AirHoldsBack{lock.lifted_m, lock.fall_m, lock.starts()});
  }
}

/// Whether the water stands full again at a pipe's lower end, after a reach that runs part full.
bool is_full_at_end(const model::Farm& farm, const PrimePlan& plan, std::size_t pipe) {
  const std::size_t end = farm.pipes[pipe].to;
  const PlaceAnswer& place = plan.answer.places[end];
  if (model::is_open_water(farm.places[end])) {
    return place.level_m.value_or(-1e9) >
           in_metres(model::to_end_level(farm, farm.pipes[pipe], plan.answer.month));
  }
  return place.pressure_Pa.value_or(0.0) > suction_limit_Pa;
}

void part_full(const model::Farm& farm, const PrimePlan& plan, Remarks& remarks) {
  constexpr double all_of_it = 0.999;
  for (const std::size_t pipe : plan.course.line.pipes) {
    priming::RunsPartFull runs;
    runs.length_m = plan.answer.pipes[pipe].part_full_m;
    if (runs.length_m <= 0.0) {
      continue;
    }
    runs.pipe = farm.pipes[pipe].name;
    runs.whole_m = in_metres(farm.pipes[pipe].length);
    runs.is_all = runs.length_m >= all_of_it * runs.whole_m;
    runs.is_full_at_end = is_full_at_end(farm, plan, pipe);
    remarks.push_back(std::move(runs));
  }
}

}  // namespace

std::vector<PrimeRemark> priming_remarks(const model::Farm& farm,
                                         const PrimePlan& plan,
                                         const PrimeOptions& options) {
  Remarks remarks;
  if (plan.need == PrimeNeed::ByHand) {
    slow_filling(plan, options, remarks);
    pump_instead(farm, plan, options, remarks);
    foot_valve(plan, remarks);
  } else if (options.shut_off_Pa) {
    remarks.push_back(priming::PumpIdle{*options.shut_off_Pa, plan.need == PrimeNeed::FillsItself});
  }
  parted(plan, remarks);
  air_lock(plan, remarks);
  part_full(farm, plan, remarks);
  return remarks;
}

}  // namespace leat::solver
