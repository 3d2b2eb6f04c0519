#include "model/keys/path_reader.h"

#include <cmath>

#include <fmt/format.h>

#include "model/keys/beside_file.h"
#include "model/keys/path_csv.h"
#include "model/keys/value_reader.h"

namespace leat::model {
namespace {

/// Slopes closer than this are one slope written in rounded numbers.
constexpr double same_slope = 1e-9;

/// A path from the farm file itself, or from a CSV file beside it.
struct FoundPath {
  std::vector<PathPoint> points;
  std::string file;
  SourcePosition start;
};

std::optional<FoundPath> read_listed_path(const YamlNode& node,
                                          const std::string& what,
                                          ProblemList& problems) {
  const std::size_t before = problems.count();
  FoundPath path{{}, problems.file(), node.position};
  for (const YamlNode& pair : node.items) {
    if (pair.kind != YamlNode::Kind::List || pair.items.size() != 2) {
      report_wrong_shape(pair, "point in " + what, "a pair [distance, elevation] is", problems);
      continue;
    }
    PathPoint point;
    point.position = pair.position;
    const Range<Length> range{Length(), length_range.high, "at most 100 km", true};
    set_if(point.distance,
           read_within(pair.items[0], "distance in " + what, parse_length, range, problems));
    set_if(point.elevation, read_level(pair.items[1], "elevation in " + what, problems));
    path.points.push_back(point);
  }
  return problems.count() == before ? std::optional(std::move(path)) : std::nullopt;
}

std::optional<FoundPath> read_path_file(const YamlNode& node,
                                        const std::string& what,
                                        LoadContext& context) {
  ProblemList& problems = context.problems;
  if (!names_csv(node)) {
    problems.add(
        "wrong-shape",
        node.position,
        fmt::format("{}: '{}' is neither a list of points nor a CSV file", what, node.text),
        "write [[0 ft, 130 ft], [120 ft, 127 ft]], or the name of a .csv file");
    return std::nullopt;
  }
  auto found = read_beside(node, what, context);
  if (!found) {
    return std::nullopt;
  }
  auto points = read_path_csv(found->text, found->name, problems);
  if (!points) {
    return std::nullopt;
  }
  return FoundPath{std::move(*points), std::move(found->name), SourcePosition{1, 1}};
}

void check_path(const FoundPath& path, const std::string& what, ProblemList& problems) {
  const auto report =
      [&](const char* code, SourcePosition position, std::string text, const char* hint) {
        problems.add_in(path.file, code, position, std::move(text), hint);
      };
  if (path.points.size() < 2) {
    report("path-too-few-points",
           path.start,
           fmt::format("{} has fewer than two points", what),
           "give the pipe's two ends and every point where its slope changes");
    return;
  }
  if (path.points.front().distance != Length()) {
    report("path-not-from-zero",
           path.points.front().position,
           fmt::format("{} does not start at distance 0", what),
           "count distances from the pipe's start");
  }
  for (std::size_t i = 1; i < path.points.size(); ++i) {
    const PathPoint& before = path.points[i - 1];
    const PathPoint& here = path.points[i];
    if (here.distance < before.distance) {
      report("path-runs-back",
             here.position,
             fmt::format("{}: the distance is less than at the point before", what),
             "distances are counted along the pipe and never fall");
    } else if (here.distance == before.distance && here.elevation == before.elevation) {
      report("path-point-twice",
             here.position,
             fmt::format("{}: the point is the same as the one before", what),
             "take one out");
    }
  }
}

double slope(const PathPoint& a, const PathPoint& b) {
  const double run = (b.distance - a.distance).in_si();
  const double rise = (b.elevation - a.elevation).in_si();
  if (run == 0.0) {
    return rise < 0.0 ? -HUGE_VAL : HUGE_VAL;
  }
  return rise / run;
}

}  // namespace

std::optional<std::vector<PathPoint>> read_path(const YamlNode& node,
                                                const Subject& pipe,
                                                LoadContext& context) {
  const std::string what = pipe.part("path");
  std::optional<FoundPath> path;
  if (node.kind == YamlNode::Kind::List) {
    path = read_listed_path(node, what, context.problems);
  } else if (node.kind == YamlNode::Kind::Text) {
    path = read_path_file(node, what, context);
  } else {
    report_wrong_shape(
        node, what, "a list of points, or the name of a CSV file, is", context.problems);
  }
  if (!path) {
    return std::nullopt;
  }
  const std::size_t before = context.problems.count();
  check_path(*path, what, context.problems);
  if (context.problems.count() != before) {
    return std::nullopt;
  }
  if (path->file != context.problems.file()) {
    for (PathPoint& point : path->points) {
      point.position = node.position;  // later problems are told in the farm file
    }
  }
  return std::move(path->points);
}

Length slope_length(const std::vector<PathPoint>& path) {
  Length sum;
  for (std::size_t i = 1; i < path.size(); ++i) {
    sum = sum + metres(std::hypot((path[i].distance - path[i - 1].distance).in_si(),
                                  (path[i].elevation - path[i - 1].elevation).in_si()));
  }
  return sum;
}

bool has_summit(const std::vector<PathPoint>& path) {
  for (std::size_t i = 1; i + 1 < path.size(); ++i) {
    const double before = slope(path[i - 1], path[i]);
    const double after = slope(path[i], path[i + 1]);
    if (after < before && !(before - after < same_slope)) {
      return true;
    }
  }
  return false;
}

}  // namespace leat::model
