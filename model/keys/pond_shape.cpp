#include "model/keys/pond_shape.h"

#include <algorithm>

#include <fmt/format.h>

#include "model/keys/kinds.h"

namespace leat::model {
namespace {

constexpr Range<Area> pond_area_range{Area(), square_metres(1e8), "at most 100 km2", true};
constexpr Range<Length> pond_width_range{Length(), metres(1e4), "above 0 and at most 10 km", false};

/// [level, area] pairs, lowest first.
PondShape read_stage_areas(const YamlNode& node, const std::string& what, ProblemList& problems) {
  std::vector<StageArea> stages;
  std::optional<StageArea> below;
  for (const YamlNode& pair : node.items) {
    if (pair.kind != YamlNode::Kind::List || pair.items.size() != 2) {
      report_wrong_shape(pair, what, "a pair [level, area] is", problems);
      continue;
    }
    const auto level = read_level(pair.items[0], "level in " + what, problems);
    const auto area =
        read_within(pair.items[1], "area in " + what, parse_area, pond_area_range, problems);
    if (!level || !area) {
      continue;
    }
    if (below && !(below->level < *level)) {
      problems.add("not-rising",
                   pair.position,
                   fmt::format("{}: the levels do not rise", what),
                   "list the levels from the bottom up");
    } else if (below && *area < below->area) {
      problems.add("not-rising",
                   pair.position,
                   fmt::format("{}: the area is less than at the level below", what),
                   "a pond that fills never gets narrower");
    }
    below = StageArea{*level, *area};
    stages.push_back(*below);
  }
  if (node.items.size() < 2) {
    problems.add("wrong-shape",
                 node.position,
                 fmt::format("{} has fewer than two levels", what),
                 "write [[77 m, 120 m2], [80 m, 400 m2]], from the bottom to the brim");
  }
  return stages;
}

std::optional<std::pair<Length, Length>> length_by_width(std::string_view text) {
  const std::size_t times = text.find(" x ");
  if (times == std::string_view::npos) {
    return std::nullopt;
  }
  const Parsed<Length> length = parse_length(text.substr(0, times));
  const Parsed<Length> width = parse_length(text.substr(times + 3));
  if (!std::holds_alternative<Length>(length) || !std::holds_alternative<Length>(width)) {
    return std::nullopt;
  }
  return std::pair(std::get<Length>(length), std::get<Length>(width));
}

/// "2:1", as 2.
std::optional<double> side_run(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos) {
    return std::nullopt;
  }
  const Parsed<double> across = parse_number(text.substr(0, colon));
  const Parsed<double> down = parse_number(text.substr(colon + 1));
  if (!std::holds_alternative<double>(across) || !std::holds_alternative<double>(down)) {
    return std::nullopt;
  }
  const double run = std::get<double>(across) / std::get<double>(down);
  constexpr double flattest = 1000.0;
  return std::get<double>(down) > 0.0 && run >= 0.0 && run <= flattest ? std::optional(run)
                                                                       : std::nullopt;
}

/// "20 m x 10 m", each side within its range.
bool read_top(const KeyValue& value, DugPond& pond) {
  const std::string* const text = read_text(value.node, value.what, value.problems());
  if (text == nullptr) {
    return false;
  }
  const auto sides = length_by_width(*text);
  if (!sides) {
    value.problems().add(
        "wrong-shape",
        value.node.position,
        fmt::format("{}: '{}' is not a length by a width", value.map.subject().name, *text),
        "write top: 20 m x 10 m");
    return false;
  }
  if (!pond_width_range.holds(sides->first) || !pond_width_range.holds(sides->second)) {
    value.problems().add("out-of-range",
                         value.node.position,
                         fmt::format("{}: '{}' is out of range", value.what, *text),
                         fmt::format("each side must be {}", pond_width_range.told));
    return false;
  }
  pond.top = sides;
  return true;
}

bool read_sides(const KeyValue& value, DugPond& pond) {
  const std::string* const text = read_text(value.node, value.what, value.problems());
  if (text == nullptr) {
    return false;
  }
  const auto run = side_run(*text);
  if (!run) {
    value.problems().add("wrong-shape",
                         value.node.position,
                         fmt::format("{}: '{}' is not a slope", value.map.subject().name, *text),
                         "write sides: 2:1, across before down");
  }
  set_if(pond.side_run, run);
  return run.has_value();
}

/// Sides that meet above the bottom leave no room for it.
void check_bottom(const MapReader& map, Length width, const DugPond& pond, ProblemList& problems) {
  constexpr double rounding = 1e-9;
  const double run_m = 2.0 * pond.side_run * pond.depth.in_si();
  if (run_m <= width.in_si() * (1.0 + rounding)) {
    return;
  }
  problems.add("contradictory",
               map.position_of("depth"),
               fmt::format("{}: the sides meet above the bottom, at {:.0f} % of the depth",
                           map.subject().name,
                           100.0 * width.in_si() / run_m),
               "measure depth and slope again; sides: 2:1 is 2 across for 1 down");
}

PondShape read_dug_pond(const MapReader& map, SourcePosition position, LoadContext& context) {
  if (map.has("top") == map.has("diameter")) {
    context.problems.add("contradictory",
                         position,
                         fmt::format("{} wants a top or a diameter", map.subject().name),
                         "write {top: 20 m x 10 m, sides: 2:1, depth: 2 m}");
  }
  DugPond pond;
  const SoundKeys sound = dug_pond_keys().read(map, pond, context);
  const bool is_side_faulty = map.find("sides") != nullptr && !sound.has("sides");
  if (!sound.has("depth") || is_side_faulty) {
    return {};
  }
  if (pond.top) {
    const auto [length, width] = *pond.top;
    check_bottom(map, std::min(length, width), pond, context.problems);
    return PrismShape{length, width, pond.side_run, pond.depth};
  }
  if (pond.diameter) {
    check_bottom(map, *pond.diameter, pond, context.problems);
    return ConeShape{*pond.diameter, pond.side_run, pond.depth};
  }
  return {};
}

}  // namespace

const Keys<DugPond>& dug_pond_keys() {
  static const Keys<DugPond> keys(
      {},
      {key<DugPond>("top",
                    own(Kind{"length_by_width"}, read_top),
                    {.sentence = "Length and width of the water when the pond is full.",
                     .examples = {"20 m x 10 m"},
                     .told = "`20 m x 10 m`: length and width at the top, each at most 10 km. "
                             "Either it or a diameter"}),
       key<DugPond>("diameter",
                    quantity(&DugPond::diameter, pond_width_range),
                    {.sentence = "Width of the water when the pond is full.",
                     .examples = {"30 m", "100 ft"},
                     .told = "of a round pond at the top, at most 10 km"}),
       key<DugPond>(
           "sides",
           own(Kind{"slope"}, read_sides),
           {.sentence = "Slope of the sides, across : down; upright unless given.",
            .examples = {"2:1"},
            .told = "`2:1`, across : down, at most 1000:1. They must not meet above the bottom",
            .if_absent = "upright"}),
       key<DugPond>("depth",
                    quantity(&DugPond::depth, depth_range),
                    {.sentence = "Depth of the water when the pond is full.",
                     .examples = {"8 ft", "2 m"},
                     .required = "2 m",
                     .told = "from the top to the bottom, at most 100 m"})},
      {{KeyGroup::Stand::ExactlyOne, {"top", "diameter"}}});
  return keys;
}

PondShape read_pond_shape(const YamlNode& node, const std::string& what, LoadContext& context) {
  if (node.kind == YamlNode::Kind::List) {
    return read_stage_areas(node, what, context.problems);
  }
  const MapReader map(
      node, Subject{what, node.position}, dug_pond_keys().names(), context.problems);
  return map.is_map() ? read_dug_pond(map, node.position, context) : PondShape();
}

}  // namespace leat::model
