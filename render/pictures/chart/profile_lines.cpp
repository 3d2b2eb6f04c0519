#include "render/pictures/chart/profile_lines.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace leat::render {

namespace {

using solver::ProfilePoint;

/// How far above all other lines the rating's may rise, as a share of their height. Beyond that it
/// would only press the rest flat.
constexpr double rating_reach = 0.15;

class LineMaker {
 public:
  LineMaker(const model::Farm& farm, const solver::Profile& profile, model::UnitSystem units)
      : farm_(farm), profile_(profile), units_(units) {}

  ProfileLines make() {
    ProfileLines lines;
    lines.pipe = pieces([](const ProfilePoint& point) { return std::optional(point.elevation_m); });
    // In the static case the standing water is all there is.
    if (profile_.answer.load_case != solver::LoadCase::Static) {
      lines.running = pieces([](const ProfilePoint& point) { return point.running_head_m; });
      lines.suction = suction_zones();
    }
    lines.standing = pieces([](const ProfilePoint& point) { return point.static_head_m; });
    lines.part_full = pieces([](const ProfilePoint& point) {
      return point.part_full ? std::optional(point.elevation_m) : std::nullopt;
    });
    lines.rating = rating_lines(highest_of(lines));
    return lines;
  }

 private:
  [[nodiscard]] ChartPoint shown(double distance_m, double level_m) const {
    return {shown_length(distance_m, units_), shown_length(level_m, units_)};
  }

  /// Whether a course ends between two neighbours: open water lies there.
  [[nodiscard]] bool parts_after(std::size_t index) const {
    const std::vector<ProfilePoint>& points = profile_.points;
    if (index + 1 >= points.size() || points[index].pipe == points[index + 1].pipe) {
      return false;
    }
    const auto leg = std::find_if(
        profile_.legs.begin(), profile_.legs.end(), [&](const solver::ProfileLeg& each) {
          return each.leg.pipe == points[index].pipe;
        });
    return model::is_open_water(farm_.places[leg->leg.end_place(farm_)]);
  }

  template <class Level>
  [[nodiscard]] std::vector<Polyline> pieces(const Level& level_m) const {
    std::vector<Polyline> made(1);
    for (std::size_t i = 0; i < profile_.points.size(); ++i) {
      const std::optional<double> level = level_m(profile_.points[i]);
      if (level) {
        made.back().push_back(shown(profile_.points[i].distance_m, *level));
      }
      if ((!level || parts_after(i)) && !made.back().empty()) {
        made.emplace_back();
      }
    }
    if (made.back().empty()) {
      made.pop_back();
    }
    return made;
  }

  [[nodiscard]] std::vector<Polyline> suction_zones() const {
    std::vector<Polyline> zones;
    Polyline upper;  // along the pipe
    Polyline lower;  // along the running grade line
    const auto close = [&] {
      // A step of the grade line on the spot is no zone.
      if (upper.size() > 1 && upper.back().x - upper.front().x > least_zone_ * run_length()) {
        upper.insert(upper.end(), lower.rbegin(), lower.rend());
        upper.push_back(upper.front());
        zones.push_back(upper);
      }
      upper.clear();
      lower.clear();
    };
    const std::vector<ProfilePoint>& points = profile_.points;
    const auto depth_m = [&points](std::size_t i) {
      return points[i].elevation_m - *points[i].running_head_m;
    };
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (!points[i].running_head_m) {
        close();
        continue;
      }
      const bool joined = i > 0 && points[i - 1].running_head_m.has_value() && !parts_after(i - 1);
      if (!joined) {
        close();
      }
      const bool is_below = depth_m(i) > 0.0;
      if (joined && is_below != (depth_m(i - 1) > 0.0)) {
        const double share = depth_m(i - 1) / (depth_m(i - 1) - depth_m(i));
        const auto mixed = [share](double a, double b) { return a + share * (b - a); };
        const ChartPoint crossing = shown(mixed(points[i - 1].distance_m, points[i].distance_m),
                                          mixed(points[i - 1].elevation_m, points[i].elevation_m));
        upper.push_back(crossing);
        lower.push_back(crossing);
        if (!is_below) {
          close();
        }
      }
      if (is_below) {
        upper.push_back(shown(points[i].distance_m, points[i].elevation_m));
        lower.push_back(shown(points[i].distance_m, *points[i].running_head_m));
      }
    }
    close();
    return zones;
  }

  static double highest_of(const ProfileLines& lines) {
    double lowest = lines.pipe.front().front().y;
    double highest = lowest;
    for (const auto* const kind : {&lines.pipe, &lines.running, &lines.standing}) {
      for (const Polyline& piece : *kind) {
        for (const ChartPoint& point : piece) {
          lowest = std::min(lowest, point.y);
          highest = std::max(highest, point.y);
        }
      }
    }
    return highest + rating_reach * (highest - lowest);
  }

  /// The rating above each pipe where it matters, cut at `ceiling`.
  [[nodiscard]] std::vector<Polyline> rating_lines(double ceiling) const {
    std::vector<Polyline> made;
    for (const solver::ProfileLeg& leg : profile_.legs) {
      if (!leg.rating_head_m) {
        continue;
      }
      Polyline piece;
      std::optional<ChartPoint> before;
      for (const ProfilePoint& point : profile_.points) {
        if (point.pipe != leg.leg.pipe) {
          continue;
        }
        const ChartPoint here = shown(point.distance_m, point.elevation_m + *leg.rating_head_m);
        if (before && (before->y > ceiling) != (here.y > ceiling)) {
          const double share = (ceiling - before->y) / (here.y - before->y);
          piece.push_back({before->x + share * (here.x - before->x), ceiling});
        }
        if (here.y <= ceiling) {
          piece.push_back(here);
        } else if (!piece.empty()) {
          made.push_back(std::exchange(piece, {}));
        }
        before = here;
      }
      if (!piece.empty()) {
        made.push_back(std::move(piece));
      }
    }
    return made;
  }

  [[nodiscard]] double run_length() const {
    return shown_length(profile_.legs.back().to_m, units_);
  }

  /// Share of the run below which a zone is too narrow to be seen.
  static constexpr double least_zone_ = 1e-3;

  const model::Farm& farm_;
  const solver::Profile& profile_;
  model::UnitSystem units_;
};

}  // namespace

double shown_length(double metres_long, model::UnitSystem units) {
  return units == model::UnitSystem::Us ? in_feet(metres(metres_long)) : metres_long;
}

ProfileLines profile_lines(const model::Farm& farm,
                           const solver::Profile& profile,
                           model::UnitSystem units) {
  return LineMaker(farm, profile, units).make();
}

}  // namespace leat::render
