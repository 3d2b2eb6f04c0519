#include "solver/profile/profile_marks.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

namespace leat::solver {

namespace {

/// Two distances nearer than this are one place [m].
constexpr double same_place_m = 1e-6;
/// Two levels nearer than this are one level [m].
constexpr double same_level_m = 1e-9;

std::optional<double> between(const std::optional<double>& before,
                              const std::optional<double>& after,
                              double share) {
  if (!before || !after) {
    return std::nullopt;
  }
  return *before + share * (*after - *before);
}

/// A point on the straight line between two neighbours.
ProfilePoint point_between(const ProfilePoint& before, const ProfilePoint& after, double along_m) {
  const double share = (along_m - before.along_m) / (after.along_m - before.along_m);
  ProfilePoint point = before;
  point.mark = ProfileMark::None;
  point.name.clear();
  point.at_m = before.at_m + share * (after.at_m - before.at_m);
  point.along_m = along_m;
  point.elevation_m = before.elevation_m + share * (after.elevation_m - before.elevation_m);
  point.running_head_m = between(before.running_head_m, after.running_head_m, share);
  point.static_head_m = between(before.static_head_m, after.static_head_m, share);
  point.pressure_Pa = between(before.pressure_Pa, after.pressure_Pa, share);
  point.absolute_head_m = between(before.absolute_head_m, after.absolute_head_m, share);
  point.part_full = before.part_full && after.part_full;
  return point;
}

/// Gives one point a mark; where it has one already, a second point beside it.
void mark_point(std::vector<ProfilePoint>& points,
                std::size_t index,
                ProfileMark mark,
                const std::string& name) {
  if (points[index].mark != ProfileMark::None) {
    points.insert(points.begin() + static_cast<std::ptrdiff_t>(index) + 1, points[index]);
    ++index;
  }
  points[index].mark = mark;
  points[index].name = name;
}

}  // namespace

const char* word_of(ProfileMark mark) {
  switch (mark) {
    case ProfileMark::None:
      return "";
    case ProfileMark::Start:
      return "start";
    case ProfileMark::End:
      return "end";
    case ProfileMark::Joint:
      return "joint";
    case ProfileMark::Summit:
    case ProfileMark::Knee:
      return "summit";
    case ProfileMark::Bleed:
      return "bleed";
    case ProfileMark::Vent:
      return "vent";
    case ProfileMark::Regulator:
      return "regulator";
    case ProfileMark::Valve:
      return "valve";
    case ProfileMark::OneWay:
      return "one-way";
    case ProfileMark::Fitting:
      return "fitting";
    case ProfileMark::PartFull:
      return "part full";
    case ProfileMark::FullAgain:
      return "full again";
  }
  return "";
}

void put_mark(std::vector<ProfilePoint>& points,
              double along_m,
              ProfileMark mark,
              const std::string& name) {
  std::optional<std::size_t> here;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (std::abs(points[i].along_m - along_m) > same_place_m) {
      continue;
    }
    const auto rank = [&points](std::size_t index) {
      return (points[index].mark == ProfileMark::None ? 2 : 0) + (points[index].part_full ? 0 : 1);
    };
    if (!here || rank(i) > rank(*here)) {
      here = i;
    }
  }
  if (here) {
    mark_point(points, *here, mark, name);
    return;
  }
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (points[i - 1].along_m < along_m && along_m < points[i].along_m) {
      ProfilePoint made = point_between(points[i - 1], points[i], along_m);
      made.mark = mark;
      made.name = name;
      points.insert(points.begin() + static_cast<std::ptrdiff_t>(i), std::move(made));
      return;
    }
  }
}

bool is_high_point(const PipeCourse& course, double at_m, double elevation_m) {
  const std::vector<CoursePoint>& points = course.points;
  for (std::size_t i = 1; i + 1 < points.size(); ++i) {
    if (points[i].at_m == at_m && points[i].elevation_m == elevation_m &&
        points[i].elevation_m >= points[i - 1].elevation_m &&
        points[i].elevation_m >= points[i + 1].elevation_m) {
      return true;
    }
  }
  return false;
}

void mark_fittings(const FlowState& state, std::size_t index, std::vector<ProfilePoint>& points) {
  const model::Pipe& pipe = state.farm->pipes[index];
  const PipeStretches& cut = state.network->pipes[index].cut;
  for (const Break& found : cut.breaks) {
    if (found.is_summit) {
      const bool is_high = is_high_point(cut.course, found.point.at_m, found.point.elevation_m);
      put_mark(points, found.point.along_m, is_high ? ProfileMark::Summit : ProfileMark::Knee, "");
    }
    if (found.kind == Break::Kind::Vent) {
      put_mark(points, found.point.along_m, ProfileMark::Vent, "");
    } else if (found.kind == Break::Kind::Regulator) {
      put_mark(points, found.point.along_m, ProfileMark::Regulator, "");
    }
  }
  const bool valve_sits =
      pipe.valve &&
      (pipe.valve->shut ||
       (pipe.valve->place && pipe.valve->place->where != model::Placement::Where::Spread));
  if (valve_sits) {
    const model::Placement start{model::Placement::Where::Start, {}};
    put_mark(points,
             cut.course.at(distance_of(pipe.valve->place.value_or(start), cut.course)).along_m,
             ProfileMark::Valve,
             "");
  }
  bool has_one_way_fitting = false;
  for (const model::Fitting& fitting : pipe.fittings) {
    has_one_way_fitting = has_one_way_fitting || fitting.one_way;
    if (fitting.one_way || fitting.place.where != model::Placement::Where::Spread) {
      put_mark(points,
               cut.course.at(distance_of(fitting.place, cut.course)).along_m,
               fitting.one_way ? ProfileMark::OneWay : ProfileMark::Fitting,
               fitting.name == "k" ? "" : fitting.name);
    }
  }
  if (pipe.one_way && !has_one_way_fitting) {
    put_mark(points, cut.course.points.front().along_m, ProfileMark::OneWay, "");
  }
}

void mark_places(const model::Farm& farm,
                 const std::vector<ProfileLeg>& legs,
                 std::vector<ProfilePoint>& points) {
  if (points.front().mark != ProfileMark::None) {
    points.insert(points.begin(), points.front());
  }
  points.front().mark = ProfileMark::Start;
  points.front().name = farm.places[legs.front().leg.start_place(farm)].name;
  std::size_t leg = 0;
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (points[i].pipe != points[i - 1].pipe) {
      mark_point(
          points, i - 1, ProfileMark::Joint, farm.places[legs[leg].leg.end_place(farm)].name);
      ++leg;
      // The mark may have added a point: step over to the next pipe's first.
      while (points[i].pipe != legs[leg].leg.pipe) {
        ++i;
      }
    }
  }
  mark_point(points,
             points.size() - 1,
             ProfileMark::End,
             farm.places[legs.back().leg.end_place(farm)].name);
}

void mark_bleeds(const model::Farm& farm,
                 const std::vector<ProfileLeg>& legs,
                 std::vector<ProfilePoint>& points) {
  std::set<std::size_t> ends_in_open_water;  // pipes after which a course ends
  for (const ProfileLeg& leg : legs) {
    if (model::is_open_water(farm.places[leg.leg.end_place(farm)])) {
      ends_in_open_water.insert(leg.leg.pipe);
    }
  }
  std::vector<std::size_t> high;
  std::size_t top = no_index;  // first point of the level reach the pipe has risen to
  bool vented = false;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const bool new_pipe = points[i].pipe != points[i - 1].pipe;
    if (new_pipe && ends_in_open_water.count(points[i - 1].pipe) != 0) {
      top = no_index;
      continue;
    }
    const double rise_m = points[i].elevation_m - points[i - 1].elevation_m;
    if (rise_m > same_level_m) {
      top = i;
      vented = false;
    } else if (rise_m < -same_level_m) {
      if (top != no_index && !vented) {
        high.push_back(top);
      }
      top = no_index;
    }
    vented = vented || (top != no_index && points[i].mark == ProfileMark::Vent);
  }
  for (std::size_t i = high.size(); i-- > 0;) {
    mark_point(points, high[i], ProfileMark::Bleed, "");
  }
}

std::vector<PartFullReach> mark_part_full(const FlowState& state,
                                          const std::vector<ProfileLeg>& legs,
                                          std::vector<ProfilePoint>& points) {
  const auto flow_m3_s = [&](std::size_t pipe) {
    const auto leg = std::find_if(
        legs.begin(), legs.end(), [pipe](const ProfileLeg& each) { return each.leg.pipe == pipe; });
    const double flow = state.pipe_flow_m3_s(pipe);
    return leg->leg.against ? -flow : flow;
  };
  std::vector<PartFullReach> reaches;
  for (std::size_t first = 0; first < points.size(); ++first) {
    if (!points[first].part_full) {
      continue;
    }
    std::size_t last = first;
    while (last + 1 < points.size() && points[last + 1].part_full) {
      ++last;
    }
    const double flow = flow_m3_s(points[first].pipe);
    const bool backward = flow <= -still_flow_m3_s;
    PartFullReach reach;
    reach.from_m = points[first].distance_m;
    reach.to_m = points[last].distance_m;
    reach.length_m = points[last].along_m - points[first].along_m;
    reach.running = std::abs(flow) >= still_flow_m3_s;
    reach.under_vapour = points[first].pressure_Pa.value_or(0.0) < 0.0;
    reach.full_again = backward ? first > 0 : last + 1 < points.size();
    reaches.push_back(reach);
    // The later point first: marking may add points behind it.
    const std::size_t count = points.size();
    const ProfileMark at_last = backward ? ProfileMark::PartFull : ProfileMark::FullAgain;
    const ProfileMark at_first = backward ? ProfileMark::FullAgain : ProfileMark::PartFull;
    if (at_last == ProfileMark::PartFull || reach.full_again) {
      mark_point(points, last, at_last, "");
    }
    if (at_first == ProfileMark::PartFull || reach.full_again) {
      mark_point(points, first, at_first, "");
    }
    first = last + (points.size() - count);
  }
  return reaches;
}

}  // namespace leat::solver
