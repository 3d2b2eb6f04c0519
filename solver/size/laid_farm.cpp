#include "solver/size/laid_farm.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>

#include "model/edit/pipe_resize.h"
#include "solver/network/pipe_geometry.h"

namespace leat::solver {

namespace {

using model::Placement;

constexpr double nearest_to_vertex_m = 0.5;

/// The point of a course at a length along the pipe.
CoursePoint point_along(const PipeCourse& course, double along_m) {
  for (std::size_t i = 1; i < course.points.size(); ++i) {
    const CoursePoint& before = course.points[i - 1];
    const CoursePoint& after = course.points[i];
    if (along_m <= after.along_m) {
      const double span = after.along_m - before.along_m;
      const double share = span > 0.0 ? (along_m - before.along_m) / span : 1.0;
      return {before.at_m + share * (after.at_m - before.at_m),
              along_m,
              before.elevation_m + share * (after.elevation_m - before.elevation_m)};
    }
  }
  return course.points.back();
}

/// Away from the vertices of the path: a joint on a summit would hide it, and none is laid there.
double clear_of_vertices(const PipeCourse& course, double along_m) {
  for (std::size_t i = 1; i + 1 < course.points.size(); ++i) {
    const double vertex_m = course.points[i].along_m;
    if (std::abs(along_m - vertex_m) < nearest_to_vertex_m) {
      const double moved_m = vertex_m + nearest_to_vertex_m;
      const double next_m = course.points[i + 1].along_m;
      return moved_m < next_m ? moved_m : 0.5 * (vertex_m + next_m);
    }
  }
  return along_m;
}

/// Makes one pipe into several.
class PipeSplitter {
 public:
  PipeSplitter(const model::Farm& farm, const LaidRun& run, std::optional<model::Month> month)
      : pipe_(farm.pipes[run.pipe]), run_(run), course_(course_of(farm, pipe_, month)) {
    double along_m = 0.0;
    cuts_.push_back(course_.points.front());
    for (std::size_t i = 0; i + 1 < run.parts.size(); ++i) {
      along_m += run.parts[i].length_m;
      cuts_.push_back(point_along(course_, clear_of_vertices(course_, along_m)));
    }
    cuts_.push_back(course_.points.back());
    for (std::size_t i = 1; i < run.parts.size(); ++i) {
      if (length_m(i) > length_m(longest_)) {
        longest_ = i;
      }
    }
  }

  [[nodiscard]] std::size_t count() const { return run_.parts.size(); }
  [[nodiscard]] double joint_elevation_m(std::size_t joint) const {
    return cuts_[joint + 1].elevation_m;
  }

  /// The part without its name and its ends at joints.
  [[nodiscard]] model::Pipe part(std::size_t index) const {
    const bool is_first = index == 0;
    const bool is_last = index + 1 == count();
    model::Pipe made = pipe_;
    made.length = metres(length_m(index));
    made.path = path_of(index);
    made.fittings.clear();
    for (const model::Fitting& fitting : pipe_.fittings) {
      if (owner_of(fitting.place, fitting.one_way ? 0 : longest_) == index) {
        made.fittings.push_back(fitting);
        made.fittings.back().place = moved(fitting.place, index);
      }
    }
    made.valve.reset();
    if (pipe_.valve && owner_of(pipe_.valve->place.value_or(Placement{}), longest_) == index) {
      made.valve = pipe_.valve;
      if (made.valve->place) {
        made.valve->place = moved(*made.valve->place, index);
      }
    }
    made.vents.clear();
    for (model::Vent vent : pipe_.vents) {
      const Placement place{Placement::Where::AtDistance, vent.distance};
      if (owner_of(place, 0) == index) {
        vent.distance = moved(place, index).distance;
        made.vents.push_back(vent);
      }
    }
    made.regulator.reset();
    if (pipe_.regulator && owner_of(pipe_.regulator->place, 0) == index) {
      made.regulator = pipe_.regulator;
      made.regulator->place = moved(made.regulator->place, index);
    }
    made.one_way = pipe_.one_way && is_first;
    if (!is_first) {
      made.entrance_k.reset();
    }
    if (!is_last) {
      made.exit_k.reset();
      made.ends.reset();
      made.enters.reset();
    }
    return model::in_size(std::move(made), run_.parts[index].size);
  }

 private:
  [[nodiscard]] double length_m(std::size_t part) const {
    return cuts_[part + 1].along_m - cuts_[part].along_m;
  }

  [[nodiscard]] std::vector<model::PathPoint> path_of(std::size_t part) const {
    if (pipe_.path.empty()) {
      return {};
    }
    const CoursePoint& start = cuts_[part];
    const CoursePoint& end = cuts_[part + 1];
    std::vector<model::PathPoint> path;
    const auto add = [&](const CoursePoint& point) {
      path.push_back({metres(point.at_m - start.at_m), elevation_metres(point.elevation_m), {}});
    };
    add(start);
    for (const CoursePoint& point : course_.points) {
      if (point.along_m > start.along_m && point.along_m < end.along_m) {
        add(point);
      }
    }
    add(end);
    return path;
  }

  /// The part a placed thing lies in; `spread` for one without a place.
  [[nodiscard]] std::size_t owner_of(const Placement& place, std::size_t spread) const {
    switch (place.where) {
      case Placement::Where::Spread:
        return spread;
      case Placement::Where::Start:
        return 0;
      case Placement::Where::End:
        return count() - 1;
      case Placement::Where::AtDistance:
        break;
    }
    for (std::size_t i = 0; i + 1 < count(); ++i) {
      if (in_metres(place.distance) <= cuts_[i + 1].at_m) {
        return i;
      }
    }
    return count() - 1;
  }

  [[nodiscard]] Placement moved(Placement place, std::size_t part) const {
    if (place.where == Placement::Where::AtDistance) {
      place.distance = metres(std::max(0.0, in_metres(place.distance) - cuts_[part].at_m));
    }
    return place;
  }

  const model::Pipe& pipe_;
  const LaidRun& run_;
  PipeCourse course_;
  std::vector<CoursePoint> cuts_;  // both ends and the joints between
  std::size_t longest_ = 0;
};

/// Names nobody bears yet.
class FreshNames {
 public:
  explicit FreshNames(const model::Farm& farm) {
    for (const model::Place& place : farm.places) {
      taken_.insert(place.name);
    }
    for (const model::Pipe& pipe : farm.pipes) {
      taken_.insert(pipe.name);
    }
  }

  [[nodiscard]] std::string take(const std::string& wanted) {
    std::string name = wanted;
    for (int i = 2; !taken_.insert(name).second; ++i) {
      name = wanted + ' ' + std::to_string(i);
    }
    return name;
  }

 private:
  std::set<std::string> taken_;
};

void lay_in_parts(const PipeSplitter& splitter,
                  const model::Pipe& run,
                  std::size_t index,
                  FreshNames& names,
                  LaidFarm& laid) {
  std::size_t from = run.from;
  for (std::size_t i = 0; i < splitter.count(); ++i) {
    model::Pipe part = splitter.part(i);
    part.name = names.take(run.name + ' ' + static_cast<char>('a' + i));
    part.from = from;
    if (i + 1 < splitter.count()) {
      model::Place joint;
      joint.name = names.take(run.name + " joint");
      joint.data = model::Tee{elevation_metres(splitter.joint_elevation_m(i)), false};
      joint.position = run.position;
      from = laid.farm.places.size();
      part.to = from;
      laid.farm.places.push_back(std::move(joint));
      laid.joint_origin.push_back(index);
    }
    laid.farm.pipes.push_back(std::move(part));
    laid.origin.push_back(index);
  }
}

}  // namespace

LaidFarm laid_farm(const model::Farm& farm,
                   const std::vector<LaidRun>& runs,
                   std::optional<model::Month> month) {
  LaidFarm laid;
  laid.farm = farm;
  laid.farm.pipes.clear();
  FreshNames names(farm);
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    const auto run = std::find_if(
        runs.begin(), runs.end(), [&](const LaidRun& found) { return found.pipe == i; });
    if (run != runs.end() && run->parts.size() > 1) {
      lay_in_parts(PipeSplitter(farm, *run, month), farm.pipes[i], i, names, laid);
      continue;
    }
    laid.farm.pipes.push_back(
        run == runs.end() ? farm.pipes[i] : model::in_size(farm.pipes[i], run->parts.front().size));
    laid.origin.push_back(i);
  }
  return laid;
}

}  // namespace leat::solver
