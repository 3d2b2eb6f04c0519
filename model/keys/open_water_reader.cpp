#include "model/keys/open_water_reader.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "model/keys/dated_record.h"
#include "model/keys/pond_keys.h"

namespace leat::model {
namespace {

/// An intake is this far below a spring's overflow unless said otherwise (FORMAT.md).
constexpr Length usual_intake_depth = metres(0.3);

using Keys = std::span<const std::string_view>;

/// Flows by month or measured on dates: what can be counted on is the lowest.
std::optional<MonthSeries<Flow>> read_flows(const YamlNode& node,
                                            const std::string& what,
                                            Reading& reading,
                                            std::vector<Dated<Flow>>& record) {
  return read_months_or_record(
      node, what, flow_record, MonthTakes::Lowest, GapRule::Lower, reading, record);
}

/// Surface levels by month or on dates, and the intake below them.
template <class Water>
void read_surface(const MapReader& map, Water& water, Reading& reading) {
  std::optional<MonthSeries<Elevation>> surface;
  if (const YamlNode* const value = map.require("surface", "104 ft")) {
    surface = read_months_or_record(*value,
                                    map.part("surface"),
                                    level_record,
                                    MonthTakes::Lowest,
                                    GapRule::Lower,
                                    reading,
                                    water.surface_record);
    set_if(water.surface, surface);
  }
  if (const YamlNode* const value = map.find("intake")) {
    water.intake = read_level(*value, map.part("intake"), reading.problems);
    if (!surface || !water.intake) {
      return;
    }
    const Elevation highest = *std::max_element(surface->by_month.begin(), surface->by_month.end());
    if (highest < *water.intake) {
      reading.problems.add("intake-above-water",
                           value->position,
                           fmt::format("{} stands above its surface", map.part("intake")),
                           "the pipe's mouth is under water");
    }
  }
}

/// The plan area, from at most one of diameter, area and volume.
std::optional<Area> read_tank_area(const MapReader& map, const Tank& tank, ProblemList& problems) {
  const int given =
      (map.has("diameter") ? 1 : 0) + (map.has("area") ? 1 : 0) + (map.has("volume") ? 1 : 0);
  if (given > 1) {
    problems.add(
        "contradictory",
        map.subject().position,
        fmt::format("{} has more than one of diameter, area and volume", map.subject().name),
        "keep one: each follows from the others");
    return std::nullopt;
  }
  if (const YamlNode* const value = map.find("diameter")) {
    const auto diameter =
        read_within(*value, map.part("diameter"), parse_length, depth_range, problems);
    return diameter ? std::optional(bore_area(*diameter)) : std::nullopt;
  }
  if (const YamlNode* const value = map.find("area")) {
    const Range<Area> range{Area(), square_metres(1e6), "above 0 and at most 1 km2", false};
    return read_within(*value, map.part("area"), parse_area, range, problems);
  }
  if (const YamlNode* const value = map.find("volume")) {
    const Range<Volume> range{Volume(), cubic_metres(1e7), "above 0", false};
    const auto volume = read_within(*value, map.part("volume"), parse_volume, range, problems);
    if (volume && Length() < tank.full) {
      return Area::from_si(volume->in_si() / tank.full.in_si());
    }
  }
  return std::nullopt;
}

/// A depth inside the tank; above `full` is an error.
std::optional<Length> read_tank_depth(const MapReader& map,
                                      std::string_view key,
                                      const Tank& tank,
                                      ProblemList& problems) {
  const YamlNode& value = *map.find(key);
  const std::optional<Length> depth = read_value(value, map.part(key), parse_length, problems);
  if (depth && Length() < tank.full && tank.full < *depth) {
    problems.add(
        "deeper-than-full",
        value.position,
        fmt::format("{}: '{}' is more than its depth when full", map.part(key), value.text),
        "depths are counted up from the floor");
    return std::nullopt;
  }
  return depth;
}

}  // namespace

Spring read_spring(const YamlNode& node, const Subject& subject, Reading& reading) {
  static constexpr std::array<std::string_view, 5> keys = {
      "overflow", "yield", "intake", "map", "surveyed with"};
  const MapReader map(node, subject, Keys(keys), reading.problems);
  Spring spring;
  std::optional<Elevation> overflow;
  if (const YamlNode* const value = map.require("overflow", "131.5 ft")) {
    overflow = read_level(*value, map.part("overflow"), reading.problems);
    set_if(spring.overflow, overflow);
  }
  if (const YamlNode* const value = map.require("yield", "9 gal/min")) {
    set_if(spring.yield, read_flows(*value, map.part("yield"), reading, spring.yield_record));
  }
  spring.intake = spring.overflow - usual_intake_depth;
  spring.intake_assumed = !map.has("intake");
  if (const YamlNode* const value = map.find("intake")) {
    const auto intake = read_level(*value, map.part("intake"), reading.problems);
    set_if(spring.intake, intake);
    if (intake && overflow && *overflow < *intake) {
      reading.problems.add("intake-above-water",
                           value->position,
                           fmt::format("{} stands above its overflow", map.part("intake")),
                           "the pipe's mouth is below the level at which the box spills");
    }
  }
  return spring;
}

Creek read_creek(const YamlNode& node, const Subject& subject, Reading& reading) {
  static constexpr std::array<std::string_view, 6> keys = {
      "surface", "intake", "flow", "spare", "map", "surveyed with"};
  const MapReader map(node, subject, Keys(keys), reading.problems);
  Creek creek;
  read_surface(map, creek, reading);
  if (const YamlNode* const value = map.find("flow")) {
    creek.flow = read_flows(*value, map.part("flow"), reading, creek.yield_record);
  }
  if (const YamlNode* const value = map.find("spare")) {
    creek.spare = read_flows(*value, map.part("spare"), reading, creek.spare_record);
  }
  return creek;
}

Pond read_pond(const YamlNode& node, const Subject& subject, Reading& reading) {
  static constexpr std::array<std::string_view, 9> keys = {"surface",
                                                           "intake",
                                                           "shape",
                                                           "spills",
                                                           "seepage",
                                                           "catchment",
                                                           "stock drink here",
                                                           "map",
                                                           "surveyed with"};
  const MapReader map(node, subject, Keys(keys), reading.problems);
  Pond pond;
  read_surface(map, pond, reading);
  read_pond_season(map, pond, reading);
  return pond;
}

Tank read_tank(const YamlNode& node, const Subject& subject, Reading& reading) {
  static constexpr std::array<std::string_view, 10> keys = {"floor",
                                                            "full",
                                                            "depth",
                                                            "diameter",
                                                            "area",
                                                            "volume",
                                                            "float inlet",
                                                            "intake",
                                                            "map",
                                                            "surveyed with"};
  ProblemList& problems = reading.problems;
  const MapReader map(node, subject, Keys(keys), problems);
  Tank tank;
  std::optional<Elevation> floor;
  if (const YamlNode* const value = map.require("floor", "120 ft")) {
    floor = read_level(*value, map.part("floor"), problems);
    set_if(tank.floor, floor);
  }
  if (const YamlNode* const value = map.require("full", "5 ft")) {
    set_if(tank.full, read_within(*value, map.part("full"), parse_length, depth_range, problems));
  }
  tank.depth = tank.full;
  if (const YamlNode* const value = map.find("depth")) {
    tank.settles = value->kind == YamlNode::Kind::Text && value->text == "settle";
    if (!tank.settles) {
      set_if(tank.depth, read_tank_depth(map, "depth", tank, problems));
    }
  }
  tank.area = read_tank_area(map, tank, problems);
  if (map.find("float inlet") != nullptr) {
    tank.float_inlet = read_tank_depth(map, "float inlet", tank, problems);
  }
  if (const YamlNode* const value = map.find("intake")) {
    tank.intake = read_level(*value, map.part("intake"), problems);
    const bool outside = tank.intake && floor && Length() < tank.full &&
                         (*tank.intake < *floor || *floor + tank.full < *tank.intake);
    if (outside) {
      problems.add("intake-above-water",
                   value->position,
                   fmt::format("{} is not between its floor and its brim", map.part("intake")),
                   "an intake is a level on the datum, not a depth");
    }
  }
  return tank;
}

}  // namespace leat::model
