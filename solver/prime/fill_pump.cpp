#include "solver/prime/fill_pump.h"

#include <utility>

#include "solver/findings/finding_list.h"
#include "solver/findings/pipe_strength.h"
#include "solver/hydraulics/friction.h"
#include "solver/hydraulics/pipe_rating.h"

namespace leat::solver {

namespace {

/// The most standing pressure a pipe may see [Pa], none where it carries no rating. As the finding
/// over-rating has it (render/OUTPUT.md).
std::optional<double> standing_limit_Pa(const model::Pipe& pipe) {
  const PipeStrength strength = strength_of(pipe);
  if (!strength.rating_Pa || !strength.derating) {
    return std::nullopt;
  }
  return hydraulics::static_share_without_surge * *strength.rating_Pa * *strength.derating;
}

/// Head lost between the summit and the lower end at the filling rate [m].
double filling_loss_m(const model::Farm& farm,
                      const PrimeCourse& course,
                      double fill_m3_s,
                      double viscosity_m2_s) {
  double loss_m = 0.0;
  const std::vector<LinePoint>& points = course.line.points;
  for (std::size_t i = course.summit + 1; i < points.size(); ++i) {
    const double length_m = points[i].along_m - points[i - 1].along_m;
    if (points[i].pipe != points[i - 1].pipe || length_m <= 0.0) {
      continue;
    }
    const model::PipeSize& size = farm.pipes[points[i].pipe].size;
    const hydraulics::FrictionLaw law = hydraulics::darcy_weisbach(
        in_metres(size.bore), length_m, in_metres(size.roughness), viscosity_m2_s);
    loss_m += hydraulics::friction_loss(law, fill_m3_s).loss_m;
  }
  return loss_m;
}

Finding over_rating(const std::string& pipe, double value_Pa, double limit_Pa, Detail detail) {
  return made_finding(Code::OverRating,
                      Severity::Danger,
                      pipe,
                      LoadCase::Static,
                      {value_Pa, limit_Pa, Measure::Pressure},
                      std::move(detail));
}

}  // namespace

FillPump fill_pump_of(const model::Farm& farm,
                      const PrimeCourse& course,
                      const Surroundings& around,
                      double fill_m3_s,
                      std::optional<double> shut_off_Pa) {
  const double outlet_m = course.line.points.back().elevation_m;
  FillPump pump;
  pump.needed_Pa = around.pressure_of_head_Pa(
      course.top().elevation_m - outlet_m +
      filling_loss_m(farm, course, fill_m3_s, around.water.kinematic_viscosity_m2_s));
  for (const LinePoint& point : course.line.points) {
    const std::optional<double> limit = standing_limit_Pa(farm.pipes[point.pipe]);
    if (!limit) {
      continue;
    }
    const double at_outlet = *limit + around.pressure_of_head_Pa(point.elevation_m - outlet_m);
    if (!pump.has_limit || at_outlet < pump.most_Pa) {
      pump.has_limit = true;
      pump.most_Pa = at_outlet;
      pump.limit_pipe = point.pipe;
      pump.limit_at_m = point.at_m;
    }
  }
  if (shut_off_Pa) {
    pump.reaches_m = outlet_m + around.head_of_pressure_m(*shut_off_Pa);
  }
  return pump;
}

std::vector<Finding> standing_findings(const model::Farm& farm,
                                       const PrimeCourse& course,
                                       const Surroundings& around) {
  std::vector<Finding> findings;
  for (const std::size_t index : course.line.pipes) {
    const model::Pipe& pipe = farm.pipes[index];
    const LinePoint* lowest = nullptr;
    for (const LinePoint& point : course.line.points) {
      if (point.pipe == index && (lowest == nullptr || point.elevation_m < lowest->elevation_m)) {
        lowest = &point;
      }
    }
    const std::optional<double> limit = standing_limit_Pa(pipe);
    if (lowest == nullptr || !limit) {
      continue;
    }
    const double standing_Pa =
        around.pressure_of_head_Pa(course.top().elevation_m - lowest->elevation_m);
    if (standing_Pa > *limit) {
      findings.push_back(
          over_rating(pipe.name, standing_Pa, *limit, FilledOverRating{lowest->at_m}));
    }
  }
  return findings;
}

std::optional<Finding> too_strong_pump(const model::Farm& farm,
                                       const FillPump& pump,
                                       std::optional<double> shut_off_Pa) {
  if (!shut_off_Pa || !pump.has_limit || *shut_off_Pa <= pump.most_Pa) {
    return std::nullopt;
  }
  return over_rating(farm.pipes[pump.limit_pipe].name, *shut_off_Pa, pump.most_Pa, PumpTooStrong{});
}

}  // namespace leat::solver
