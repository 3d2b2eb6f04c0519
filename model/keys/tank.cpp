#include "model/keys/tank.h"

#include <fmt/format.h>

#include "model/keys/kinds.h"
#include "model/keys/place_keys.h"

namespace leat::model {
namespace {

constexpr Range<Area> tank_area_range{
    Area(), square_metres(1e6), "above 0 and at most 1 km2", false};
constexpr Range<Volume> tank_volume_range{Volume(), cubic_metres(1e7), "above 0", false};

constexpr std::array<std::string_view, 3> plan_keys = {"diameter", "area", "volume"};

bool is_plan_told_once(const MapReader& map) {
  return std::count_if(plan_keys.begin(), plan_keys.end(), [&map](std::string_view name) {
           return map.has(name);
         }) <= 1;
}

/// A depth inside the tank; above `full` is an error.
std::optional<Length> read_tank_depth(const KeyValue& value, const Tank& tank) {
  const auto depth = read_value(value.node, value.what, parse_length, value.problems());
  if (depth && Length() < tank.full && tank.full < *depth) {
    value.problems().add(
        "deeper-than-full",
        value.node.position,
        fmt::format("{}: '{}' is more than its depth when full", value.what, value.node.text),
        "depths are counted up from the floor");
    return std::nullopt;
  }
  return depth;
}

bool read_depth_now(const KeyValue& value, Tank& tank) {
  tank.settles = value.node.kind == YamlNode::Kind::Text && value.node.text == "settle";
  const auto depth = tank.settles ? std::optional(tank.full) : read_tank_depth(value, tank);
  set_if(tank.depth, depth);
  return depth.has_value();
}

bool read_float_inlet(const KeyValue& value, Tank& tank) {
  tank.float_inlet = read_tank_depth(value, tank);
  return tank.float_inlet.has_value();
}

/// The plan area from a quantity within its range; nothing where the tank tells it twice.
template <class Quantity, class AreaOf>
auto plan_area(const Range<Quantity>& range, AreaOf area_of) {
  return own(Kind{Written<Quantity>::definition}, [=](const KeyValue& value, Tank& tank) {
    if (!is_plan_told_once(value.map)) {
      return false;
    }
    const auto found =
        read_within(value.node, value.what, Written<Quantity>::parse, range, value.problems());
    if (found) {
      tank.area = area_of(*found, tank);
    }
    return found.has_value();
  });
}

std::optional<Area> area_of_volume(Volume volume, const Tank& tank) {
  return Length() < tank.full ? std::optional(Area::from_si(volume.in_si() / tank.full.in_si()))
                              : std::nullopt;
}

std::vector<Key<Tank>> level_keys() {
  return {
      key<Tank>("floor",
                level(&Tank::floor),
                {.sentence = "Level of the tank's floor.",
                 .examples = {"120 ft", "36.5 m"},
                 .required = "120 ft",
                 .told = "level of the floor"}),
      key<Tank>("full",
                quantity(&Tank::full, depth_range),
                {.sentence = "Depth of the water when the tank is full.",
                 .examples = {"5 ft", "1.5 m"},
                 .required = "5 ft",
                 .told = "depth when full, at most 100 m"}),
      key<Tank>("depth",
                own(Kind{.definition = "length", .words = {"settle"}}, read_depth_now),
                {.sentence = "Depth of the water now; full unless given. settle lets leat find it.",
                 .examples = {"3 ft", "settle"},
                 .told = "depth now, at most full; or `settle`: leat finds the level at which as "
                         "much comes as leaves",
                 .if_absent = "full"})};
}

std::vector<Key<Tank>> plan_rows() {
  return {
      key<Tank>(
          "diameter",
          plan_area(depth_range, [](Length diameter, const Tank&) { return bore_area(diameter); }),
          {.sentence =
               "Width of a round tank. One of diameter, area and volume says how big it is.",
           .examples = {"8 ft", "2.4 m"},
           .told = "at most one of them: what a season needs to know how long it lasts; 100 m, 1 "
                   "km2, 10 000 000 m3 at most",
           .if_absent = "it holds nothing in a season"}),
      key<Tank>("area",
                plan_area(tank_area_range, [](Area area, const Tank&) { return area; }),
                {.sentence = "Area of the tank seen from above. One of diameter, area and volume "
                             "says how big it is.",
                 .examples = {"50 ft2", "4 m2"}}),
      key<Tank>(
          "volume",
          plan_area(tank_volume_range, area_of_volume),
          {.sentence =
               "What the full tank holds. One of diameter, area and volume says how big it is.",
           .examples = {"1500 gal", "5 m3"}})};
}

std::vector<Key<Tank>> mouth_keys() {
  return {
      key<Tank>("float inlet",
                own(Kind{"length"}, read_float_inlet),
                {.sentence = "Depth of water at which the float of the inlet shuts.",
                 .examples = {"4.5 ft", "1.4 m"},
                 .told = "depth at which the inlet's float shuts, at most full",
                 .if_absent = "no float: it runs over"}),
      key<Tank>("intake",
                level(&Tank::intake),
                {.sentence = "Level of the mouth of pipes that start here; the floor unless given.",
                 .examples = {"120.5 ft", "36.6 m"},
                 .told = "level of the mouth of pipes that start here, between floor and brim",
                 .if_absent = "the floor"})};
}

void check_plan(const MapReader& map, ProblemList& problems) {
  if (!is_plan_told_once(map)) {
    problems.add(
        "contradictory",
        map.subject().position,
        fmt::format("{} has more than one of diameter, area and volume", map.subject().name),
        "keep one: each follows from the others");
  }
}

void check_tank_intake(const MapReader& map,
                       const Tank& tank,
                       const SoundKeys& sound,
                       ProblemList& problems) {
  const bool is_outside = sound.has("intake") && sound.has("floor") && Length() < tank.full &&
                          (*tank.intake < tank.floor || tank.floor + tank.full < *tank.intake);
  if (is_outside) {
    problems.add("intake-above-water",
                 map.find("intake")->position,
                 fmt::format("{} is not between its floor and its brim", map.part("intake")),
                 "an intake is a level on the datum, not a depth");
  }
}

}  // namespace

const Keys<Tank>& tank_keys() {
  static const Keys<Tank> keys({"tank", "A tank."},
                               joined<Tank>({level_keys(), plan_rows(), mouth_keys()}),
                               {{KeyGroup::Stand::AtMostOne, {"diameter", "area", "volume"}}},
                               &place_keys());
  return keys;
}

Tank read_tank(const MapReader& map, LoadContext& context) {
  Tank tank;
  const SoundKeys sound = tank_keys().read(map, tank, context);
  if (!sound.has("depth")) {
    tank.depth = tank.full;
  }
  check_plan(map, context.problems);
  check_tank_intake(map, tank, sound, context.problems);
  return tank;
}

}  // namespace leat::model
