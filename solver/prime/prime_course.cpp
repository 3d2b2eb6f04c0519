#include "solver/prime/prime_course.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/network/pipe_geometry.h"

namespace leat::solver {

namespace {

/// Levels nearer than this are one [m].
constexpr double same_level_m = 1e-6;
/// A closing piece this near an end is at it, as a share of the pipe's length.
constexpr double at_the_end = 0.02;

double area_of(const model::Farm& farm, std::size_t pipe) {
  return in_square_metres(bore_area(farm.pipes[pipe].size.bore));
}

/// Volume between two neighbouring points of a line [m3]; nothing across a joint.
double volume_between(const model::Farm& farm, const LinePoint& a, const LinePoint& b) {
  return a.pipe == b.pipe ? area_of(farm, a.pipe) * (b.along_m - a.along_m) : 0.0;
}

/// The share of that volume that lies below a level.
double share_below(const LinePoint& a, const LinePoint& b, double level_m) {
  const double low = std::min(a.elevation_m, b.elevation_m);
  const double high = std::max(a.elevation_m, b.elevation_m);
  if (level_m >= high) {
    return 1.0;
  }
  return level_m <= low ? 0.0 : (level_m - low) / (high - low);
}

class CourseReader {
 public:
  CourseReader(const model::Farm& farm, const SteadyAnswer& answer, const LineCourse& line)
      : farm_(farm), answer_(answer) {
    course_.line = line;
    course_.source_m = line_source_level_m(farm, answer, line);
    course_.end_m = line_end_level_m(farm, answer, line);
  }

  PrimeCourse read() {
    find_turns();
    find_summit();
    find_volumes();
    find_bleeds();
    course_.inlet = inlet_closure();
    course_.outlet = outlet_closure();
    return std::move(course_);
  }

 private:
  [[nodiscard]] const std::vector<LinePoint>& points() const { return course_.line.points; }

  /// Inner points where a rise turns into a fall (high) or a fall into a rise (low); of a level
  /// reach between, its first point. Of the two points of a tee, the first.
  void find_turns() {
    int direction = 0;
    std::size_t level_from = 0;
    for (std::size_t i = 0; i + 1 < points().size(); ++i) {
      const double step = points()[i + 1].elevation_m - points()[i].elevation_m;
      if (std::abs(step) <= same_level_m) {
        continue;
      }
      const int now = step > 0.0 ? 1 : -1;
      if (direction != 0 && now != direction) {
        (now < 0 ? highs_ : lows_).push_back(level_from);
      }
      direction = now;
      level_from = i + 1;
    }
    rises_to_its_end_ = direction > 0;
  }

  void find_summit() {
    for (std::size_t i = 1; i < points().size(); ++i) {
      if (points()[i].elevation_m > course_.top().elevation_m + same_level_m) {
        course_.summit = i;
      }
    }
    // The end of one pipe of the line and the start of the next are one point: the tee.
    const model::Pipe& pipe = farm_.pipes[course_.top().pipe];
    if (is_last_of_pipe(course_.summit) && model::is_tee(farm_.places[pipe.to])) {
      course_.summit_tee = pipe.to;
    } else if (is_first_of_pipe(course_.summit) && model::is_tee(farm_.places[pipe.from])) {
      course_.summit_tee = pipe.from;
    }
  }

  [[nodiscard]] bool is_first_of_pipe(std::size_t point) const {
    return point == 0 || points()[point - 1].pipe != points()[point].pipe;
  }

  [[nodiscard]] bool is_last_of_pipe(std::size_t point) const {
    return point + 1 >= points().size() || points()[point + 1].pipe != points()[point].pipe;
  }

  [[nodiscard]] bool turns_at(std::size_t point) const {
    return std::count(highs_.begin(), highs_.end(), point) > 0 ||
           std::count(lows_.begin(), lows_.end(), point) > 0 || point == course_.summit;
  }

  void find_volumes() {
    course_.narrowest_area_m2 = std::numeric_limits<double>::max();
    for (const std::size_t pipe : course_.line.pipes) {
      course_.narrowest_area_m2 = std::min(course_.narrowest_area_m2, area_of(farm_, pipe));
    }
    PrimeLeg leg = leg_from(0);
    for (std::size_t i = 1; i < points().size(); ++i) {
      const LinePoint& before = points()[i - 1];
      const LinePoint& here = points()[i];
      const double volume = volume_between(farm_, before, here);
      leg.volume_m3 += volume;
      course_.volume_m3 += volume;
      (i <= course_.summit ? course_.inlet_side_m3 : course_.outlet_side_m3) += volume;
      if (is_last_of_pipe(i) || turns_at(i)) {
        leg.to_m = here.at_m;
        leg.to_elevation_m = here.elevation_m;
        if (leg.volume_m3 > 0.0) {
          course_.legs.push_back(leg);
        }
        leg = leg_from(is_last_of_pipe(i) ? std::min(i + 1, points().size() - 1) : i);
      }
    }
    course_.already_in_m3 = flooded_m3();
  }

  [[nodiscard]] PrimeLeg leg_from(std::size_t point) const {
    PrimeLeg leg;
    leg.pipe = points()[point].pipe;
    leg.from_m = points()[point].at_m;
    leg.from_elevation_m = points()[point].elevation_m;
    return leg;
  }

  /// What comes in from the source by itself: up to its level, as far as the line stays below it.
  [[nodiscard]] double flooded_m3() const {
    double volume = 0.0;
    for (std::size_t i = 0; i < course_.summit; ++i) {
      volume += volume_below(i, course_.source_m);
      if (points()[i + 1].elevation_m > course_.source_m) {
        break;
      }
    }
    return volume;
  }

  /// Volume below a level between a point and the next [m3].
  [[nodiscard]] double volume_below(std::size_t point, double level_m) const {
    const LinePoint& a = points()[point];
    const LinePoint& b = points()[point + 1];
    return volume_between(farm_, a, b) * share_below(a, b, level_m);
  }

  /// The same between any two points of the line.
  [[nodiscard]] double volume_below(std::size_t one, std::size_t other, double level_m) const {
    double volume = 0.0;
    for (std::size_t i = std::min(one, other); i < std::max(one, other); ++i) {
      volume += volume_below(i, level_m);
    }
    return volume;
  }

  void find_bleeds() {
    std::vector<std::size_t> inlet_side;  // from the summit outwards
    std::vector<std::size_t> outlet_side;
    for (const std::size_t point : highs_) {
      if (point < course_.summit) {
        inlet_side.insert(inlet_side.begin(), point);
      } else if (point > course_.summit && !same_as_summit(point)) {
        outlet_side.push_back(point);
      }
    }
    if (rises_to_its_end_ && course_.summit + 1 < points().size()) {
      outlet_side.push_back(points().size() - 1);
    }
    fill_side(inlet_side, 0);
    fill_side(outlet_side, points().size() - 1);
  }

  /// Water poured in at the summit fills the dip before the first high point, runs over that into
  /// the next, and so on as long as each high point is lower than the one before. One is capped
  /// when water stands at it on both sides: before anything runs over a higher one beyond it, or
  /// over the end. `waiting` holds those that water runs over, each lower than the one before.
  void fill_side(const std::vector<std::size_t>& highs, std::size_t end) {
    std::vector<std::size_t> waiting;
    double before_m3 = 0.0;
    const auto cap_last = [&](std::size_t boundary) {
      double now_m3 = 0.0;
      std::size_t from = course_.summit;
      for (const std::size_t high : waiting) {
        now_m3 += volume_below(from, high, points()[high].elevation_m);
        from = high;
      }
      now_m3 += volume_below(from, boundary, points()[from].elevation_m);
      course_.bleeds.push_back({from, from < course_.summit, std::max(0.0, now_m3 - before_m3)});
      before_m3 = std::max(before_m3, now_m3);
      waiting.pop_back();
    };
    for (const std::size_t high : highs) {
      while (!waiting.empty() &&
             points()[waiting.back()].elevation_m <= points()[high].elevation_m) {
        cap_last(high);
      }
      waiting.push_back(high);
    }
    while (!waiting.empty()) {
      cap_last(end);
    }
  }

  /// The two points of a tee on the summit are one.
  [[nodiscard]] bool same_as_summit(std::size_t point) const {
    return std::abs(points()[point].along_m - course_.top().along_m) < same_level_m;
  }

  [[nodiscard]] EndClosure inlet_closure() const {
    const std::size_t pipe = course_.line.pipes.front();
    const model::Pipe& first = farm_.pipes[pipe];
    const PipeCourse course = course_of(farm_, first, answer_.month);
    const auto stands_under_water = [&](const model::Placement& place) {
      return course.at(distance_of(place, course)).elevation_m <= course_.source_m + same_level_m &&
             distance_of(place, course) <=
                 course.points.front().at_m +
                     at_the_end * (course.points.back().at_m - course.points.front().at_m);
    };
    for (const model::Fitting& fitting : first.fittings) {
      if (fitting.one_way && stands_under_water(fitting.place)) {
        return {EndClosure::Kind::OneWay, pipe, fitting.name, {}};
      }
    }
    if (first.one_way) {
      return {EndClosure::Kind::OneWay, pipe, {}, {}};
    }
    if (first.valve && first.valve->place && stands_under_water(*first.valve->place)) {
      return {EndClosure::Kind::Valve, pipe, {}, first.valve->type};
    }
    return {EndClosure::Kind::Cap, pipe, {}, {}};
  }

  [[nodiscard]] EndClosure outlet_closure() const {
    const std::size_t pipe = course_.line.pipes.back();
    const model::Pipe& last = farm_.pipes[pipe];
    const PipeCourse course = course_of(farm_, last, answer_.month);
    if (last.valve && last.valve->place) {
      const double first_m = course.points.front().at_m;
      const double last_m = course.points.back().at_m;
      if (distance_of(*last.valve->place, course) >= last_m - at_the_end * (last_m - first_m)) {
        return {EndClosure::Kind::Valve, pipe, {}, last.valve->type};
      }
    }
    if (model::is_trough(farm_.places[course_.line.to])) {
      return {EndClosure::Kind::Float, pipe, {}, {}};
    }
    return {EndClosure::Kind::Cap, pipe, {}, {}};
  }

  const model::Farm& farm_;
  const SteadyAnswer& answer_;
  PrimeCourse course_;
  std::vector<std::size_t> highs_;
  std::vector<std::size_t> lows_;
  bool rises_to_its_end_ = false;
};

}  // namespace

PrimeCourse prime_course(const model::Farm& farm,
                         const SteadyAnswer& answer,
                         const LineCourse& line) {
  return CourseReader(farm, answer, line).read();
}

}  // namespace leat::solver
