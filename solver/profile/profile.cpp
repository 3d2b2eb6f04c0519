#include "solver/profile/profile.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "solver/findings/pipe_strength.h"
#include "solver/flow/static_heads.h"
#include "solver/hydraulics/head_loss.h"
#include "solver/profile/profile_marks.h"
#include "solver/steady/steady.h"

namespace leat::solver {

namespace {

/// The water along a pipe with a point added on either side of every reach that is not full.
std::vector<PipePoint> with_ends_of_reaches(const std::vector<PipePoint>& found,
                                            const Surroundings& around,
                                            double velocity_head_m) {
  // Pressure if the pipe were full: of a point that is not, `pressure_Pa` is what stands above it.
  const auto if_full_Pa = [&](const PipePoint& point) {
    return around.pressure_of_head_Pa(point.head_m - point.elevation_m - velocity_head_m);
  };
  std::vector<PipePoint> points;
  for (const PipePoint& point : found) {
    if (!points.empty() && points.back().part_full != point.part_full &&
        points.back().along_m < point.along_m) {
      const PipePoint before = points.back();
      const double floor_Pa = (before.part_full ? before : point).pressure_Pa;
      const double rise_Pa = if_full_Pa(point) - if_full_Pa(before);
      const double share =
          rise_Pa == 0.0 ? 0.0 : std::clamp((floor_Pa - if_full_Pa(before)) / rise_Pa, 0.0, 1.0);
      const auto mixed = [share](double a, double b) { return a + share * (b - a); };
      points.push_back({mixed(before.at_m, point.at_m),
                        mixed(before.along_m, point.along_m),
                        mixed(before.elevation_m, point.elevation_m),
                        mixed(before.head_m, point.head_m),
                        floor_Pa,
                        before.stretch,
                        true});
    }
    points.push_back(point);
  }
  return points;
}

/// The farm's standing water, whatever has broken or opened while it ran.
class StandingWater {
 public:
  StandingWater(const model::Farm& farm,
                const Surroundings& around,
                std::optional<model::Month> month) {
    NetworkOptions options;
    options.load_case = LoadCase::Static;
    options.month = month;
    network_ = network_of(farm, around, options);
    heads_m_ = static_heads_m(farm, *network_, month);
  }

  /// Static head in a stretch of a pipe; a one-way divides the stretch in two.
  [[nodiscard]] std::optional<double> head_m(std::size_t pipe,
                                             std::size_t stretch,
                                             double at_m) const {
    const PipeEdges& edges = network_->pipes[pipe];
    const std::optional<double>& start = heads_m_[edges.start_node[stretch]];
    const std::optional<double>& end = heads_m_[edges.end_node[stretch]];
    const Stretch& found = edges.cut.stretches[stretch];
    if (!found.one_way) {
      return start ? start : end;
    }
    return at_m < found.one_way_at_m.value_or(found.start.at_m) ? start : end;
  }

 private:
  std::unique_ptr<FarmNetwork> network_;
  std::vector<std::optional<double>> heads_m_;
};

class RunWalk {
 public:
  RunWalk(const FlowState& state, Profile& profile)
      : state_(state),
        farm_(*state.farm),
        standing_(farm_, state.surroundings, profile.answer.month),
        profile_(profile) {}

  void walk(const std::vector<RunLeg>& legs) {
    for (const RunLeg& leg : legs) {
      add(leg);
    }
    mark_places(farm_, profile_.legs, profile_.points);
    mark_bleeds(farm_, profile_.legs, profile_.points);
    profile_.reaches = mark_part_full(state_, profile_.legs, profile_.points);
  }

 private:
  void add(const RunLeg& leg) {
    std::vector<ProfilePoint> points = points_of(leg.pipe);
    mark_fittings(state_, leg.pipe, points);
    const PipeCourse& course = state_.network->pipes[leg.pipe].cut.course;
    const double start_m = course.points.front().at_m;
    const double end_m = course.points.back().at_m;
    const double along_m = course.points.back().along_m;
    for (ProfilePoint& point : points) {
      point.distance_m = distance_m_ + (leg.against ? end_m - point.at_m : point.at_m - start_m);
      point.along_m = along_m_ + (leg.against ? along_m - point.along_m : point.along_m);
    }
    std::vector<SummitAnswer> summits = profile_.answer.pipes[leg.pipe].summits;
    if (leg.against) {
      std::reverse(points.begin(), points.end());
      std::reverse(summits.begin(), summits.end());
    }
    for (const SummitAnswer& summit : summits) {
      const double run_m = leg.against ? end_m - summit.at_m : summit.at_m - start_m;
      profile_.summits.push_back({leg.pipe,
                                  distance_m_ + run_m,
                                  summit,
                                  is_high_point(course, summit.at_m, summit.elevation_m)});
    }
    profile_.legs.push_back(
        {leg, distance_m_, distance_m_ + end_m - start_m, rating_head_m(leg.pipe, points)});
    profile_.points.insert(profile_.points.end(), points.begin(), points.end());
    distance_m_ += end_m - start_m;
    along_m_ += along_m;
  }

  /// Points of one pipe as the file writes it: its course, and where the grade line breaks.
  [[nodiscard]] std::vector<ProfilePoint> points_of(std::size_t pipe) const {
    const PipeEdges& edges = state_.network->pipes[pipe];
    const double velocity_head_m = hydraulics::velocity_head_m(
        in_metres(farm_.pipes[pipe].size.bore), state_.pipe_flow_m3_s(pipe));
    const std::vector<PipePoint> water = with_ends_of_reaches(
        water_along(state_, pipe).points, state_.surroundings, velocity_head_m);
    std::vector<ProfilePoint> points;
    std::size_t next = 0;
    for (std::size_t i = 0; i < edges.cut.stretches.size(); ++i) {
      const Stretch& stretch = edges.cut.stretches[i];
      std::vector<CoursePoint> bare{stretch.start};
      for (const CoursePoint& point : edges.cut.course.points) {
        if (point.along_m > stretch.start.along_m && point.along_m < stretch.end.along_m) {
          bare.push_back(point);
        }
      }
      bare.push_back(stretch.end);
      for (const CoursePoint& point : bare) {
        bool known = false;
        while (next < water.size() && water[next].stretch == i &&
               water[next].along_m <= point.along_m) {
          known = known || water[next].along_m == point.along_m;
          points.push_back(watered(pipe, water[next++]));
        }
        if (!known) {
          points.push_back(dry(pipe, i, point));
        }
      }
      while (next < water.size() && water[next].stretch == i) {
        points.push_back(watered(pipe, water[next++]));
      }
    }
    return points;
  }

  /// A point where nothing is known of the running water.
  [[nodiscard]] ProfilePoint dry(std::size_t pipe,
                                 std::size_t stretch,
                                 const CoursePoint& where) const {
    ProfilePoint point;
    point.pipe = pipe;
    point.at_m = where.at_m;
    point.along_m = where.along_m;
    point.elevation_m = where.elevation_m;
    point.static_head_m = standing_.head_m(pipe, stretch, where.at_m);
    return point;
  }

  [[nodiscard]] ProfilePoint watered(std::size_t pipe, const PipePoint& water) const {
    const Surroundings& around = state_.surroundings;
    ProfilePoint point = dry(pipe, water.stretch, {water.at_m, water.along_m, water.elevation_m});
    const double pressure_head_m = around.head_of_pressure_m(water.pressure_Pa);
    point.running_head_m = water.part_full ? water.elevation_m + pressure_head_m : water.head_m;
    point.pressure_Pa = water.pressure_Pa;
    point.absolute_head_m = pressure_head_m + around.head_of_pressure_m(around.air_pressure_Pa);
    point.part_full = water.part_full;
    return point;
  }

  [[nodiscard]] std::optional<double> rating_head_m(std::size_t pipe,
                                                    const std::vector<ProfilePoint>& points) const {
    const std::optional<Pressure>& rating = farm_.pipes[pipe].size.rating;
    const std::optional<double> share = strength_of(farm_.pipes[pipe]).derating;
    if (!rating || !share) {
      return std::nullopt;
    }
    const double head_m = state_.surroundings.head_of_pressure_m(in_pascals(*rating) * *share);
    const bool is_near = std::any_of(points.begin(), points.end(), [&](const ProfilePoint& point) {
      return point.static_head_m &&
             *point.static_head_m - point.elevation_m > head_m / rating_shown_within;
    });
    return is_near ? std::optional<double>(head_m) : std::nullopt;
  }

  const FlowState& state_;
  const model::Farm& farm_;
  StandingWater standing_;
  Profile& profile_;
  double distance_m_ = 0.0;
  double along_m_ = 0.0;
};

}  // namespace

Profile profile_of(const model::Farm& farm,
                   const std::string& words,
                   const SteadyOptions& options) {
  Profile profile;
  RunChoice choice;
  if (!words.empty()) {
    choice = run_named(farm, words);
    if (choice.problem) {
      profile.problem = std::move(choice.problem);
      return profile;
    }
  }
  const SteadyState solved = solve_steady_state(farm, options);
  profile.answer = solved.answer;
  if (!solved.answer.converged) {
    profile.problems = solved.answer.problems;
    return profile;
  }
  if (words.empty()) {
    choice.legs = {{telling_pipe(farm, solved.answer), false}};
  }
  RunWalk(solved.flow, profile).walk(choice.legs);
  return profile;
}

}  // namespace leat::solver
