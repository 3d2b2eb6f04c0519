#include "solver/findings/trapped_air.h"

#include <algorithm>
#include <cmath>

#include "solver/flow/flow_state.h"
#include "solver/network/pipe_geometry.h"
#include "solver/network/pipes_by_place.h"

namespace leat::solver {

namespace {

/// Flatter than this the survey cannot tell a fall from a rise [m].
constexpr double level_m = 1e-6;

/// A point of a pipe's course as the water meets it.
struct WalkedPoint {
  CoursePoint point;
  bool vented = false;
};

enum class Slope { Falls, Level, Rises };

Slope slope_between(double from_m, double to_m) {
  if (std::abs(to_m - from_m) <= level_m) {
    return Slope::Level;
  }
  return to_m < from_m ? Slope::Falls : Slope::Rises;
}

class AirFinder {
 public:
  AirFinder(const model::Farm& farm, const SteadyAnswer& answer)
      : farm_(farm), answer_(answer), pipes_of_(farm), end_(farm.pipes.size()) {}

  std::vector<FallingLeg> find() {
    for (const std::size_t pipe : running_downwards()) {
      walk(pipe);
    }
    std::stable_sort(legs_.begin(), legs_.end(), [](const FallingLeg& a, const FallingLeg& b) {
      return a.pipe < b.pipe;
    });
    return std::move(legs_);
  }

 private:
  [[nodiscard]] bool is_running(std::size_t pipe) const {
    return std::abs(answer_.pipes[pipe].flow_m3_s) >= still_flow_m3_s;
  }

  [[nodiscard]] bool runs_forward(std::size_t pipe) const {
    return answer_.pipes[pipe].flow_m3_s > 0.0;
  }

  [[nodiscard]] std::size_t upper_place(std::size_t pipe) const {
    return runs_forward(pipe) ? farm_.pipes[pipe].from : farm_.pipes[pipe].to;
  }

  [[nodiscard]] std::size_t lower_place(std::size_t pipe) const {
    return runs_forward(pipe) ? farm_.pipes[pipe].to : farm_.pipes[pipe].from;
  }

  /// The course in the direction of flow, with its vents as points of their own.
  [[nodiscard]] std::vector<WalkedPoint> points_of(std::size_t pipe) const {
    const PipeCourse course = course_of(farm_, farm_.pipes[pipe], answer_.month);
    std::vector<WalkedPoint> points;
    for (const CoursePoint& point : course.points) {
      points.push_back({point, false});
    }
    for (const model::Vent& vent : farm_.pipes[pipe].vents) {
      points.push_back({course.at(in_metres(vent.distance)), true});
    }
    // A vent at a vertex comes after it, so that the leg up to the vertex is whole.
    std::stable_sort(points.begin(), points.end(), [](const WalkedPoint& a, const WalkedPoint& b) {
      return a.point.along_m < b.point.along_m;
    });
    if (!runs_forward(pipe)) {
      std::reverse(points.begin(), points.end());
    }
    return points;
  }

  /// Angle below the horizontal between two points of a pipe's course.
  [[nodiscard]] double angle_of(std::size_t pipe,
                                const CoursePoint& a,
                                const CoursePoint& b) const {
    const double fall = a.elevation_m - b.elevation_m;
    const double run = std::abs(b.at_m - a.at_m);
    if (!farm_.pipes[pipe].path.empty()) {
      return std::atan2(fall, run);
    }
    return run > fall ? std::asin(fall / run) : std::atan2(fall, 0.0);
  }

  /// Gauge pressure where a pipe's path turns downward, as the answer has it.
  [[nodiscard]] std::optional<double> pressure_at(std::size_t pipe, double at_m) const {
    for (const SummitAnswer& summit : answer_.pipes[pipe].summits) {
      if (std::abs(summit.at_m - at_m) < 1e-6 && summit.absolute_head_m) {
        return *summit.absolute_head_m * answer_.density_kg_m3 * gravity_m_s2 -
               answer_.air_pressure_Pa;
      }
    }
    return std::nullopt;
  }

  /// Running pipes from the highest head down: those above a tee come before those below it.
  [[nodiscard]] std::vector<std::size_t> running_downwards() const {
    std::vector<std::size_t> pipes;
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      if (is_running(i) && answer_.pipes[i].part_full_m <= 0.0) {
        pipes.push_back(i);
      }
    }
    const auto head = [this](std::size_t pipe) {
      const PlaceAnswer& place = answer_.places[upper_place(pipe)];
      return place.head_m.value_or(place.elevation_m);
    };
    std::stable_sort(pipes.begin(), pipes.end(), [&](std::size_t a, std::size_t b) {
      return head(a) > head(b);
    });
    return pipes;
  }

  /// Walks a running pipe, those above it being done, and keeps what hangs at its lower end.
  void walk(std::size_t pipe) {
    std::optional<HighPoint> high = standing_at(upper_place(pipe));
    std::optional<FallingLeg> leg;
    bool came_up = false;
    const std::vector<WalkedPoint> points = points_of(pipe);
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
      const CoursePoint& here = points[i].point;
      const CoursePoint& next = points[i + 1].point;
      if (points[i].vented) {
        close(leg);
        high.reset();
        came_up = false;
      }
      switch (slope_between(here.elevation_m, next.elevation_m)) {
        case Slope::Level:
          break;
        case Slope::Rises:
          close(leg);
          high.reset();
          came_up = true;
          break;
        case Slope::Falls:
          // A vent at the high point itself is the next point, at the same place.
          if (came_up) {
            high = HighPoint{
                std::nullopt, pipe, here.at_m, here.elevation_m, pressure_at(pipe, here.at_m)};
            came_up = false;
          }
          if (high) {
            extend(leg, *high, pipe, here, next);
          }
          break;
      }
    }
    close(leg);
    end_[pipe] = high;
  }

  void extend(std::optional<FallingLeg>& leg,
              const HighPoint& high,
              std::size_t pipe,
              const CoursePoint& here,
              const CoursePoint& next) {
    if (!leg) {
      leg = FallingLeg{};
      leg->high = high;
      leg->pipe = pipe;
      leg->from_m = here.at_m;
      leg->from_elevation_m = here.elevation_m;
      leg->velocity_m_s = std::abs(answer_.pipes[pipe].velocity_m_s);
    }
    leg->to_m = next.at_m;
    leg->to_elevation_m = next.elevation_m;
    leg->angle_rad = std::max(leg->angle_rad, angle_of(pipe, here, next));
  }

  void close(std::optional<FallingLeg>& leg) {
    if (!leg) {
      return;
    }
    leg->sweep = hydraulics::air_sweep(in_metres(farm_.pipes[leg->pipe].size.bore), leg->angle_rad);
    leg->verdict = leg->sweep.verdict(leg->velocity_m_s);
    legs_.push_back(*leg);
    leg.reset();
  }

  [[nodiscard]] bool is_open_to_air(std::size_t place) const {
    const std::vector<std::size_t>& opened = answer_.opened_tees;
    return std::find(opened.begin(), opened.end(), place) != opened.end();
  }

  /// Whether a pipe climbs away from one of its ends at first.
  [[nodiscard]] bool climbs_from(std::size_t pipe, std::size_t place) const {
    PipeCourse course = course_of(farm_, farm_.pipes[pipe], answer_.month);
    if (farm_.pipes[pipe].to == place) {
      std::reverse(course.points.begin(), course.points.end());
    }
    for (std::size_t i = 1; i < course.points.size(); ++i) {
      const Slope slope =
          slope_between(course.points[i - 1].elevation_m, course.points[i].elevation_m);
      if (slope != Slope::Level) {
        return slope == Slope::Rises;
      }
    }
    return false;
  }

  /// The high point whose air hangs at a place: that of a falling pipe that runs into it, or the
  /// place itself where a pipe comes up to it and none climbs on.
  [[nodiscard]] std::optional<HighPoint> standing_at(std::size_t place) const {
    if (!std::holds_alternative<model::Tee>(farm_.places[place].data) || is_open_to_air(place)) {
      return std::nullopt;
    }
    bool runs_in = false;
    bool climbs_on = false;
    for (const std::size_t i : pipes_of_.at(place)) {
      climbs_on = climbs_on || climbs_from(i, place);
      if (is_running(i) && lower_place(i) == place) {
        runs_in = true;
        if (end_[i]) {
          return end_[i];
        }
      }
    }
    if (!runs_in || climbs_on) {
      return std::nullopt;
    }
    const PlaceAnswer& tee = answer_.places[place];
    return HighPoint{place, 0, 0.0, tee.elevation_m, tee.pressure_Pa};
  }

  const model::Farm& farm_;
  const SteadyAnswer& answer_;
  std::vector<FallingLeg> legs_;
  PipesByPlace pipes_of_;
  std::vector<std::optional<HighPoint>> end_;  // what hangs at each pipe's lower end
};

/// Whether a vent of the line's pipes stands between two of its points, both included.
bool is_vented(const model::Farm& farm, const LinePoint& from, const LinePoint& to) {
  if (from.pipe != to.pipe) {
    return false;
  }
  const std::vector<model::Vent>& vents = farm.pipes[from.pipe].vents;
  return std::any_of(vents.begin(), vents.end(), [&](const model::Vent& vent) {
    const double at_m = in_metres(vent.distance);
    return at_m >= from.at_m - 1e-6 && at_m <= to.at_m + 1e-6;
  });
}

}  // namespace

std::vector<FallingLeg> falling_legs(const model::Farm& farm, const SteadyAnswer& answer) {
  if (!answer.converged || answer.load_case == LoadCase::Static) {
    return {};
  }
  return AirFinder(farm, answer).find();
}

AirLock air_lock_of(const model::Farm& farm, const SteadyAnswer& answer, const LineCourse& line) {
  AirLock lock;
  const double end_m = line_end_level_m(farm, answer, line);
  lock.fall_m = line_source_level_m(farm, answer, line) - end_m;
  bool has_come_up = false;
  double pocket_m = 0.0;  // height of the falling leg walked at present, behind a high point
  const auto rise = [&] {
    if (pocket_m > level_m) {
      ++lock.pockets;
      lock.lifted_m += pocket_m;
    }
    pocket_m = 0.0;
    has_come_up = true;
  };
  for (std::size_t i = 0; i + 1 < line.points.size(); ++i) {
    const LinePoint& here = line.points[i];
    const LinePoint& next = line.points[i + 1];
    switch (slope_between(here.elevation_m, next.elevation_m)) {
      case Slope::Level:
        break;
      case Slope::Rises:
        rise();
        break;
      case Slope::Falls:
        if (is_vented(farm, here, next)) {
          has_come_up = false;
          pocket_m = 0.0;
        } else if (has_come_up) {
          pocket_m += here.elevation_m - next.elevation_m;
        }
        break;
    }
  }
  // An end under water is a last rise: the air must be pushed down to it.
  if (end_m > line.points.back().elevation_m + level_m) {
    rise();
  }
  return lock;
}

}  // namespace leat::solver
