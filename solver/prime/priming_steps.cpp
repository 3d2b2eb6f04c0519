#include "solver/prime/priming_steps.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "solver/network/pipe_geometry.h"

namespace leat::solver {

namespace {

using Steps = std::vector<PrimeStep>;

/// Whether a branch has a valve at the tee itself: one further down lets it fill as far.
bool has_valve_at_tee(const model::Farm& farm,
                      const LineBranch& branch,
                      std::optional<model::Month> month) {
  const model::Pipe& pipe = farm.pipes[branch.pipe];
  if (!pipe.valve || !pipe.valve->place) {
    return false;
  }
  constexpr double near_share = 0.02;
  const PipeCourse course = course_of(farm, pipe, month);
  const double first_m = course.points.front().at_m;
  const double last_m = course.points.back().at_m;
  const double tee_m = pipe.from == branch.tee ? first_m : last_m;
  const double valve_m = distance_of(*pipe.valve->place, course);
  return std::abs(valve_m - tee_m) <= near_share * (last_m - first_m);
}

/// A branch that the file has shut stays so; the others take water when the line runs.
std::vector<LineBranch> running_branches(const model::Farm& farm, const PrimePlan& plan) {
  std::vector<LineBranch> running;
  for (const LineBranch& branch : plan.course.line.branches) {
    const std::optional<model::Valve>& valve = farm.pipes[branch.pipe].valve;
    if (!valve || !valve->shut) {
      running.push_back(branch);
    }
  }
  return running;
}

std::vector<priming::Branch> named(const model::Farm& farm,
                                   const std::vector<LineBranch>& branches) {
  std::vector<priming::Branch> names;
  for (const LineBranch& branch : branches) {
    names.push_back(priming::named(farm, branch));
  }
  return names;
}

/// High points lower than the summit that stand open while the line is poured full.
bool has_inner_bleeds(const PrimeCourse& course) {
  return course.bleeds.size() > (course.bleeds_at_lower_end() ? 1U : 0U);
}

void carry_water(const PrimePlan& plan, Steps& steps) {
  const double line_m3 = plan.course.volume_m3;
  steps.push_back(
      {plan.names.summit.where(),
       priming::CarryWater{water_to_have_ready * line_m3, line_m3, has_inner_bleeds(plan.course)},
       {},
       {}});
}

void shut_branches(const model::Farm& farm, const PrimePlan& plan, Steps& steps) {
  using How = priming::ShutBranch::How;
  for (const LineBranch& branch : plan.course.line.branches) {
    const model::Pipe& pipe = farm.pipes[branch.pipe];
    priming::ShutBranch shut;
    shut.branch = priming::named(farm, branch);
    shut.branch_m3 = in_square_metres(bore_area(pipe.size.bore)) * in_metres(pipe.length);
    if (has_valve_at_tee(farm, branch, plan.answer.month)) {
      shut.how = pipe.valve->shut ? How::IsShut : How::AtItsValve;
    }
    steps.push_back({shut.branch.tee, shut, {}, {}});
  }
}

/// The place at the end where a trough's float is what shuts it, else the last pipe.
const std::string& lower_end(const PrimePlan& plan) {
  return plan.outlet.by == OutletClosing::By::Float ? plan.names.end : plan.names.last_pipe;
}

/// Both ends shut, the summit and every lower high point open. Where the line rises to its end, the
/// end is shut only when water has come to it.
void make_ready(const model::Farm& farm, const PrimePlan& plan, Steps& steps) {
  const PrimeCourse& course = plan.course;
  steps.push_back({plan.names.first_pipe, priming::CloseInlet{}, {}, {}});
  steps.push_back({lower_end(plan), priming::CloseOutlet{course.bleeds_at_lower_end()}, {}, {}});
  steps.push_back({plan.names.summit.where(), priming::OpenSummit{}, {}, {}});
  for (const BleedPoint& bleed : course.bleeds) {
    if (!course.is_lower_end(bleed)) {  // that stands open already
      const priming::HighPoint point = priming::high_point(farm, course, bleed.point);
      steps.push_back({point.pipe, priming::OpenHighPoint{point}, {}, {}});
    }
  }
}

priming::Pour first_pour(const PrimePlan& plan) {
  const PrimeCourse& course = plan.course;
  priming::Pour pour;
  pour.rate_m3_s = plan.rate.fill_m3_s;
  if (plan.rate.fill_m3_s >= plan.rate.fastest_m3_s) {
    pour.velocity_m_s = plan.rate.fastest_m3_s / course.narrowest_area_m2;
  }
  pour.inlet_side_m3 = course.inlet_side_m3;
  pour.already_in_m3 =
      plan.inlet.by == InletClosing::By::OneWay ? std::max(0.0, course.already_in_m3) : 0.0;
  pour.outlet_side_m3 = course.outlet_side_m3;
  pour.to_the_brim = course.bleeds.empty();
  return pour;
}

void pour(const model::Farm& farm, const PrimePlan& plan, Steps& steps) {
  const PrimeCourse& course = plan.course;
  const std::string& summit = plan.names.summit.where();
  const priming::Pour first = first_pour(plan);
  if (first.to_the_brim) {
    steps.push_back({summit, first, course.volume_m3, plan.rate.fill_s});
    return;
  }
  steps.push_back({summit, first, {}, {}});
  double poured_m3 = 0.0;
  for (const BleedPoint& bleed : course.bleeds) {
    const priming::HighPoint point = priming::high_point(farm, course, bleed.point);
    PrimeStep step;
    step.where = point.pipe;
    if (course.is_lower_end(bleed)) {
      step.action = priming::ShutOutlet{bleed.volume_m3};
    } else {
      step.action = priming::CapHighPoint{point, bleed.volume_m3};
    }
    step.volume_m3 = bleed.volume_m3;
    step.time_s = bleed.volume_m3 / plan.rate.fill_m3_s;
    steps.push_back(std::move(step));
    poured_m3 += bleed.volume_m3;
  }
  const double rest_m3 = std::max(0.0, course.volume_m3 - poured_m3);
  steps.push_back({summit, priming::PourOn{}, rest_m3, rest_m3 / plan.rate.fill_m3_s});
}

/// The line stands full: its top is closed, then its inlet opened, its end last.
void start(const PrimePlan& plan, Steps& steps) {
  constexpr double ten_minutes_s = 600.0;
  const std::string& summit = plan.names.summit.where();
  steps.push_back({summit, priming::WaitAndTopUp{}, {}, ten_minutes_s});
  steps.push_back({summit, priming::CapSummit{}, {}, {}});
  if (!plan.inlet.holds_by_itself()) {
    steps.push_back({plan.names.first_pipe, priming::OpenInlet{}, {}, {}});
  }
  steps.push_back({lower_end(plan), priming::OpenOutlet{}, {}, {}});
}

/// Time until the water poured in has left, each pipe at its own flow [s].
std::optional<double> own_water_after_s(const PrimePlan& plan) {
  double time_s = 0.0;
  for (const PrimeLeg& leg : plan.course.legs) {
    const double flow = plan.answer.pipes[leg.pipe].flow_m3_s;
    if (flow <= 0.0) {
      return std::nullopt;
    }
    time_s += leg.volume_m3 / flow;
  }
  return time_s;
}

/// Air at the summit can be topped up only where both ends can be shut while it runs.
priming::Watch::TopUp top_up(const PrimePlan& plan) {
  using TopUp = priming::Watch::TopUp;
  if (plan.outlet.by == OutletClosing::By::Cap) {
    return TopUp::BeginAgain;
  }
  if (plan.inlet.holds_by_itself()) {
    return TopUp::LowerEndShut;
  }
  return plan.inlet.by == InletClosing::By::Valve ? TopUp::BothEndsShut : TopUp::BeginAgain;
}

std::size_t number_of_carrying(const Steps& steps) {
  const auto carry = std::find_if(steps.begin(), steps.end(), [](const PrimeStep& step) {
    return std::holds_alternative<priming::CarryWater>(step.action);
  });
  return static_cast<std::size_t>(carry - steps.begin()) + 1;
}

/// The flow expected is that with every branch open, so it is measured after the last.
void run(const model::Farm& farm,
         const PrimePlan& plan,
         const std::vector<LineBranch>& branches,
         Steps& steps) {
  const std::string& end = plan.names.end;
  if (const std::optional<double> time_s = own_water_after_s(plan)) {
    steps.push_back(
        {end, priming::WaitForOwnWater{*time_s, !branches.empty()}, std::nullopt, time_s});
  }
  for (const LineBranch& branch : branches) {
    steps.push_back(let_in(farm, branch));
  }
  const double flow_m3_s = plan.flow_m3_s.value_or(0.0);
  steps.push_back({end,
                   priming::MeasureFlow{flow_m3_s, plan.outlet.is_under_water() && flow_m3_s > 0.0},
                   {},
                   {}});
  const std::size_t carrying = number_of_carrying(steps);
  steps.push_back({end, priming::Watch{top_up(plan), named(farm, branches), carrying}, {}, {}});
}

}  // namespace

PrimeStep let_in(const model::Farm& farm, const LineBranch& branch) {
  const priming::Branch names = priming::named(farm, branch);
  const bool leaves = farm.pipes[branch.pipe].from == branch.tee;
  return {names.tee, priming::LetBranchIn{names, leaves}, {}, {}};
}

std::vector<PrimeStep> priming_steps(const model::Farm& farm, const PrimePlan& plan) {
  const std::vector<LineBranch> branches = running_branches(farm, plan);
  Steps steps;
  steps.push_back(
      {plan.names.summit.where(), priming::KnowHowToStop{named(farm, branches)}, {}, {}});
  carry_water(plan, steps);
  shut_branches(farm, plan, steps);
  make_ready(farm, plan, steps);
  pour(farm, plan, steps);
  start(plan, steps);
  run(farm, plan, branches, steps);
  return steps;
}

}  // namespace leat::solver
