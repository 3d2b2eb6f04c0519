#include "solver/prime/prime.h"

#include <algorithm>
#include <utility>

#include "solver/network/network_of_farm.h"
#include "solver/prime/filling_steps.h"
#include "solver/prime/line_reading.h"
#include "solver/prime/prime_judging.h"
#include "solver/prime/prime_remarks.h"
#include "solver/prime/priming_steps.h"

namespace leat::solver {

namespace {

bool is_of_line(const model::Farm& farm, const LineCourse& line, const std::string& where) {
  const auto is_here = [&](std::size_t pipe) {
    return farm.pipes[pipe].name == where || farm.places[farm.pipes[pipe].from].name == where ||
           farm.places[farm.pipes[pipe].to].name == where;
  };
  return std::any_of(line.pipes.begin(), line.pipes.end(), is_here);
}

void keep_own_flags(const model::Farm& farm, PrimePlan& plan) {
  std::vector<Finding>& flags = plan.answer.flags;
  flags.erase(std::remove_if(flags.begin(),
                             flags.end(),
                             [&](const Finding& flag) {
                               return !is_of_line(farm, plan.course.line, flag.where);
                             }),
              flags.end());
}

/// Adds a finding about filling, in place of one that says the same of the static case.
void add_flag(Finding flag, PrimePlan& plan) {
  std::vector<Finding>& flags = plan.answer.flags;
  const auto same = std::find_if(flags.begin(), flags.end(), [&](const Finding& other) {
    return other.code == flag.code && other.where == flag.where;
  });
  if (same == flags.end()) {
    flags.push_back(std::move(flag));
  } else {
    *same = std::move(flag);
  }
  std::stable_sort(flags.begin(), flags.end(), [](const Finding& a, const Finding& b) {
    return a.severity < b.severity;
  });
}

/// All that is known of the line before it is judged.
PrimePlan plan_of(const model::Farm& farm, const PrimeOptions& options) {
  LineReading read = read_line(farm, options);
  PrimePlan plan;
  plan.problems = std::move(read.problems);
  plan.problem = std::move(read.problem);
  plan.answer = std::move(read.answer);
  if (!plan.is_made()) {
    return plan;
  }
  plan.course = std::move(read.course);
  plan.lock = read.lock;
  plan.air = std::move(read.air);
  plan.inflow_m3_s = read.inflow_m3_s;
  plan.flow_m3_s = read.flow_m3_s;
  plan.flow_without_foot_valve_m3_s = read.flow_without_foot_valve_m3_s;
  for (const std::size_t pipe : read.opened_valves) {
    plan.opened_valves.push_back(farm.pipes[pipe].name);
  }
  plan.names = priming::names_of(farm, plan.course);
  plan.inlet = inlet_closing(plan.course, plan.answer.density_kg_m3);
  plan.outlet = outlet_closing(farm, plan.course, plan.answer.density_kg_m3);
  plan.rate = filling_rate(plan.course, options.fill_m3_s, plan.inflow_m3_s);
  keep_own_flags(farm, plan);
  return plan;
}

/// What the full line puts on its pipes, and what a pump must give to fill it.
void reckon_pump(const model::Farm& farm, const PrimeOptions& options, PrimePlan& plan) {
  if (plan.course.fills_itself()) {
    return;
  }
  const Surroundings around = surroundings_of(farm, plan.answer.month);
  plan.pump = fill_pump_of(farm, plan.course, around, plan.rate.pump_m3_s, options.shut_off_Pa);
  for (Finding& flag : standing_findings(farm, plan.course, around)) {
    add_flag(std::move(flag), plan);
  }
}

void judge(const model::Farm& farm, PrimePlan& plan) {
  plan.refusal = reason_not_to_fill(farm, plan);
  if (plan.refusal) {
    plan.need = PrimeNeed::CannotHold;
  } else if (plan.course.fills_itself()) {
    plan.need = PrimeNeed::FillsItself;
    plan.steps = filling_steps(farm, plan);
  } else {
    plan.need = PrimeNeed::ByHand;
    plan.margin_m = least_margin_m(farm, plan);
    plan.steps = priming_steps(farm, plan);
  }
}

}  // namespace

PrimePlan priming_plan(const model::Farm& farm, const PrimeOptions& options) {
  PrimePlan plan = plan_of(farm, options);
  if (!plan.is_made()) {
    return plan;
  }
  reckon_pump(farm, options, plan);
  judge(farm, plan);
  // A pump that is too strong is no reason not to pour: it is said after the plan is made.
  if (plan.pump) {
    if (auto flag = too_strong_pump(farm, *plan.pump, options.shut_off_Pa)) {
      add_flag(*std::move(flag), plan);
    }
  }
  plan.remarks = priming_remarks(farm, plan, options);
  return plan;
}

}  // namespace leat::solver
