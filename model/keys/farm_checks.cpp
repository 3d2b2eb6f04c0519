#include "model/keys/farm_checks.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace leat::model {
namespace {

/// Levels and lengths that differ by less are the same, written in different units.
constexpr double rounding_m = 1e-6;
constexpr std::size_t most_named = 5;

std::string told(Elevation level, UnitSystem units) {
  return units == UnitSystem::Us ? fmt::format("{:.2f} ft", in_feet(level))
                                 : fmt::format("{:.2f} m", in_metres(level));
}

std::string told(Length length, UnitSystem units) {
  return units == UnitSystem::Us ? fmt::format("{:.2f} ft", in_feet(length))
                                 : fmt::format("{:.2f} m", in_metres(length));
}

bool differ(Elevation a, Elevation b) {
  return std::abs((a - b).in_si()) > meeting_tolerance.in_si() + rounding_m;
}

/// A level that the farm fixes for one end of a pipe, and what fixes it.
struct FixedLevel {
  Elevation level;
  std::string by;
};

std::optional<FixedLevel> fixed_by_place(const Place& place) {
  const std::string name = fmt::format("{} '{}'", kind_word(place), place.name);
  if (const auto* const tee = std::get_if<Tee>(&place.data)) {
    return FixedLevel{tee->elevation, name};
  }
  if (const auto* const outlet = std::get_if<Outlet>(&place.data)) {
    return FixedLevel{outlet->level, name};
  }
  if (const auto* const trough = std::get_if<Trough>(&place.data)) {
    return FixedLevel{trough->float_level, "the float of " + name};
  }
  return std::nullopt;
}

/// Only a given intake fixes the start of a path; it says nothing about pipes that end there.
std::optional<FixedLevel> fixed_start(const Place& place) {
  std::optional<Elevation> intake;
  if (const auto* const spring = std::get_if<Spring>(&place.data)) {
    intake = spring->intake_assumed ? std::nullopt : std::optional(spring->intake);
  } else if (const auto* const creek = std::get_if<Creek>(&place.data)) {
    intake = creek->intake;
  } else if (const auto* const pond = std::get_if<Pond>(&place.data)) {
    intake = pond->intake;
  } else if (const auto* const tank = std::get_if<Tank>(&place.data)) {
    intake = tank->intake;
  }
  if (intake) {
    return FixedLevel{*intake, fmt::format("the intake of {} '{}'", kind_word(place), place.name)};
  }
  return fixed_by_place(place);
}

void report_miss(const Farm& farm,
                 const Pipe& pipe,
                 SourcePosition position,
                 const char* what,
                 Elevation level,
                 const FixedLevel& fixed,
                 ProblemList& problems) {
  problems.add("path-misses-place",
               position.line > 0 ? position : pipe.position,
               fmt::format("{} of pipe '{}' is at {}, but {} is at {}",
                           what,
                           pipe.name,
                           told(level, farm.show),
                           fixed.by,
                           told(fixed.level, farm.show)),
               "they are one point: measure again which is right");
}

/// The path's first point against an intake, a tee or the water it starts in.
void check_start(const Farm& farm, const Pipe& pipe, ProblemList& problems) {
  const Place& from = farm.places[pipe.from];
  if (pipe.path.empty()) {
    return;
  }
  const PathPoint& start = pipe.path.front();
  if (const auto fixed = fixed_start(from)) {
    if (differ(start.elevation, fixed->level)) {
      report_miss(
          farm, pipe, start.position, "the path's start", start.elevation, *fixed, problems);
    }
    return;
  }
  std::optional<FixedLevel> water;
  if (const auto* const spring = std::get_if<Spring>(&from.data)) {
    water = FixedLevel{spring->overflow, fmt::format("the overflow of spring '{}'", from.name)};
  } else if (const auto* const tank = std::get_if<Tank>(&from.data)) {
    water = FixedLevel{tank->floor + tank->full, fmt::format("the brim of tank '{}'", from.name)};
  }
  if (water && (start.elevation - water->level).in_si() > meeting_tolerance.in_si() + rounding_m) {
    problems.add("intake-above-water",
                 start.position.line > 0 ? start.position : pipe.position,
                 fmt::format("the path of pipe '{}' starts at {}, above {} at {}",
                             pipe.name,
                             told(start.elevation, farm.show),
                             water->by,
                             told(water->level, farm.show)),
                 "the pipe's mouth is under water");
  }
}

/// The path's last point and `ends` against the place where the pipe ends.
void check_end(const Farm& farm, const Pipe& pipe, ProblemList& problems) {
  std::optional<FixedLevel> fixed = fixed_by_place(farm.places[pipe.to]);
  if (pipe.ends) {
    if (fixed && differ(*pipe.ends, fixed->level)) {
      report_miss(farm, pipe, pipe.position, "'ends'", *pipe.ends, *fixed, problems);
      return;
    }
    fixed = FixedLevel{*pipe.ends, "'ends'"};
  }
  if (fixed && !pipe.path.empty() && differ(pipe.path.back().elevation, fixed->level)) {
    report_miss(farm,
                pipe,
                pipe.path.back().position,
                "the path's end",
                pipe.path.back().elevation,
                *fixed,
                problems);
  }
}

/// A pipe without a path runs straight between its ends; one with a path has had its length checked
/// against it.
void check_rise(const Farm& farm, const Pipe& pipe, ProblemList& problems) {
  if (!pipe.path.empty()) {
    return;
  }
  double rise = 0.0;
  for (int month = 0; month < 12; ++month) {
    const auto when = static_cast<Month>(month);
    const Length difference = to_end_level(farm, pipe, when) - from_end_level(farm, pipe, when);
    rise = std::max(rise, std::abs(difference.in_si()));
  }
  if (rise > pipe.length.in_si() + rounding_m) {
    problems.add("pipe-too-short",
                 pipe.position,
                 fmt::format("pipe '{}' is {} long, but its ends stand {} apart in height",
                             pipe.name,
                             told(pipe.length, farm.show),
                             told(metres(rise), farm.show)),
                 "check the levels at both ends, and that feet and metres are not mixed");
  }
}

/// Sets of places that pipes join, whatever their direction.
class JoinedPlaces {
 public:
  explicit JoinedPlaces(std::size_t count) : parents_(count) {
    std::iota(parents_.begin(), parents_.end(), std::size_t{0});
  }
  [[nodiscard]] std::size_t find(std::size_t place) {
    while (parents_[place] != place) {
      parents_[place] = parents_[parents_[place]];
      place = parents_[place];
    }
    return place;
  }
  void join(std::size_t a, std::size_t b) {
    const std::size_t first = find(a);
    const std::size_t second = find(b);
    parents_[std::max(first, second)] = std::min(first, second);
  }

 private:
  std::vector<std::size_t> parents_;
};

std::vector<std::size_t> count_pipes(const Farm& farm, const std::vector<Join>& joins) {
  std::vector<std::size_t> pipes(farm.places.size());
  for (const Pipe& pipe : farm.pipes) {
    ++pipes[pipe.from];
    ++pipes[pipe.to];
  }
  for (const Join& join : joins) {
    ++pipes[join.first];
    ++pipes[join.second];
  }
  return pipes;
}

void check_pipe_count(const Place& place, std::size_t pipes, ProblemList& problems) {
  const bool single =
      std::holds_alternative<Trough>(place.data) || std::holds_alternative<Outlet>(place.data);
  if (pipes == 0 && !is_open_water(place)) {
    problems.add("no-pipe",
                 place.position,
                 fmt::format("no pipe reaches {} '{}'", kind_word(place), place.name),
                 "add a pipe that ends there, or take it out");
  }
  if (pipes > 1 && single) {
    problems.add(
        "too-many-pipes",
        place.position,
        fmt::format("{} pipes reach {} '{}', which takes one", pipes, kind_word(place), place.name),
        "put a tee before it");
  }
}

/// "tee 'a' and trough 'b' are", "trough 'b' is".
std::string told(const Farm& farm, const std::vector<std::size_t>& island) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min(island.size(), most_named); ++i) {
    const Place& place = farm.places[island[i]];
    names.push_back(fmt::format("{} '{}'", kind_word(place), place.name));
  }
  if (island.size() > most_named) {
    names.push_back(fmt::format("{} more", island.size() - most_named));
  }
  if (names.size() == 1) {
    return names.front() + " is";
  }
  const std::string last = names.back();
  names.pop_back();
  return fmt::format("{} and {} are", fmt::join(names, ", "), last);
}

}  // namespace

void check_pipe_meets_places(const Farm& farm, const Pipe& pipe, ProblemList& problems) {
  check_start(farm, pipe, problems);
  check_end(farm, pipe, problems);
  check_rise(farm, pipe, problems);
}

void check_connections(const Farm& farm, const std::vector<Join>& joins, ProblemList& problems) {
  const std::vector<std::size_t> pipes = count_pipes(farm, joins);
  JoinedPlaces joined(farm.places.size());
  for (const Pipe& pipe : farm.pipes) {
    joined.join(pipe.from, pipe.to);
  }
  for (const Join& join : joins) {
    joined.join(join.first, join.second);
  }
  std::vector<bool> wet(farm.places.size());
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    if (is_open_water(farm.places[i])) {
      wet[joined.find(i)] = true;
    }
  }
  std::vector<std::vector<std::size_t>> islands(farm.places.size());
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    check_pipe_count(farm.places[i], pipes[i], problems);
    if (pipes[i] > 0 && !wet[joined.find(i)]) {
      islands[joined.find(i)].push_back(i);
    }
  }
  for (const std::vector<std::size_t>& island : islands) {
    if (!island.empty()) {
      problems.add("island",
                   farm.places[island.front()].position,
                   fmt::format("{} joined to no spring, creek, pond or tank", told(farm, island)),
                   "add the pipe that brings water there");
    }
  }
}

}  // namespace leat::model
