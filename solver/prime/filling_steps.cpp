#include "solver/prime/filling_steps.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "solver/prime/priming_steps.h"

namespace leat::solver {

namespace {

using Steps = std::vector<PrimeStep>;

/// Whether a branch can be kept shut until the line is full: by its valve or at its far end.
bool can_be_shut(const model::Farm& farm, const LineBranch& branch) {
  const model::Pipe& pipe = farm.pipes[branch.pipe];
  const bool leaves = pipe.from == branch.tee;
  return leaves && (pipe.valve || !model::is_tee(farm.places[pipe.to]));
}

/// Whether the file has it shut, and so it stays.
bool is_shut(const model::Pipe& pipe) {
  return pipe.valve && pipe.valve->shut;
}

void keep_branches_shut(const model::Farm& farm, const PrimePlan& plan, Steps& steps) {
  using How = priming::KeepBranchShut::How;
  for (const LineBranch& branch : plan.course.line.branches) {
    const model::Pipe& pipe = farm.pipes[branch.pipe];
    if (is_shut(pipe)) {
      continue;
    }
    const bool leaves = pipe.from == branch.tee;
    priming::KeepBranchShut keep;
    keep.branch = priming::named(farm, branch);
    keep.far_end = farm.places[leaves ? pipe.to : pipe.from].name;
    if (can_be_shut(farm, branch)) {
      keep.how = pipe.valve ? How::AtItsValve : How::AtItsFarEnd;
    } else {
      keep.how = leaves ? How::FillsAlong : How::BringsWater;
    }
    steps.push_back({keep.branch.tee, keep, {}, {}});
  }
}

/// Where a vent stands, the air leaves by itself.
bool has_vent(const model::Farm& farm, const LinePoint& point) {
  const std::vector<model::Vent>& vents = farm.pipes[point.pipe].vents;
  return std::any_of(vents.begin(), vents.end(), [&](const model::Vent& vent) {
    return std::abs(in_metres(vent.distance) - point.at_m) < 1e-6;
  });
}

/// High points without a vent, in the order in which the water comes to them.
std::vector<priming::HighPoint> high_points(const model::Farm& farm, const PrimeCourse& course) {
  std::vector<priming::HighPoint> highs;
  for (std::size_t i = 1; i + 1 < course.line.points.size(); ++i) {
    const bool is_bleed = std::any_of(course.bleeds.begin(),
                                      course.bleeds.end(),
                                      [i](const BleedPoint& bleed) { return bleed.point == i; });
    if ((is_bleed || i == course.summit) && !has_vent(farm, course.line.points[i])) {
      highs.push_back(priming::high_point(farm, course, i));
    }
  }
  return highs;
}

priming::LetWaterIn let_water_in(const PrimePlan& plan) {
  priming::LetWaterIn in;
  if (plan.inflow_m3_s > plan.rate.fill_m3_s) {
    in.at_most_m3_s = plan.rate.fill_m3_s;
    in.velocity_m_s = plan.rate.fill_m3_s / plan.course.narrowest_area_m2;
  }
  return in;
}

}  // namespace

std::vector<PrimeStep> filling_steps(const model::Farm& farm, const PrimePlan& plan) {
  const std::vector<priming::HighPoint> highs = high_points(farm, plan.course);
  Steps steps;
  keep_branches_shut(farm, plan, steps);
  // All before the water comes: behind one that is shut it would trap its air.
  for (const priming::HighPoint& high : highs) {
    steps.push_back({high.pipe, priming::OpenBeforeWater{high, &high == &highs.front()}, {}, {}});
  }
  steps.push_back({plan.names.end, let_water_in(plan), {}, {}});
  for (const priming::HighPoint& high : highs) {
    steps.push_back({high.pipe, priming::CloseHighPoint{high}, {}, {}});
  }
  steps.push_back({plan.names.end,
                   priming::LetItRunFull{plan.rate.fill_m3_s, plan.rate.fill_s},
                   plan.course.volume_m3,
                   plan.rate.fill_s});
  for (const LineBranch& branch : plan.course.line.branches) {
    if (can_be_shut(farm, branch) && !is_shut(farm.pipes[branch.pipe])) {
      steps.push_back(let_in(farm, branch));
    }
  }
  return steps;
}

}  // namespace leat::solver
