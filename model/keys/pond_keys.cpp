#include "model/keys/pond_keys.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "model/keys/need_reader.h"
#include "model/keys/value_reader.h"

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

/// "20 m x 10 m".
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

/// A pond with even slopes: {top: 20 m x 10 m, sides: 2:1, depth: 2 m}, or with a diameter.
class DugPond {
 public:
  DugPond(const MapReader& shape, ProblemList& problems) : shape_(shape), problems_(problems) {}

  [[nodiscard]] PondShape read(SourcePosition position) {
    if (shape_.has("top") == shape_.has("diameter")) {
      problems_.add("contradictory",
                    position,
                    fmt::format("{} wants a top or a diameter", shape_.subject().name),
                    "write {top: 20 m x 10 m, sides: 2:1, depth: 2 m}");
    }
    const auto top = read_top();
    std::optional<Length> diameter;
    if (const YamlNode* const value = shape_.find("diameter")) {
      diameter =
          read_within(*value, shape_.part("diameter"), parse_length, pond_width_range, problems_);
    }
    std::optional<Length> depth;
    if (const YamlNode* const value = shape_.require("depth", "2 m")) {
      depth = read_within(*value, shape_.part("depth"), parse_length, depth_range, problems_);
    }
    const auto run = read_sides();
    if (!depth || !run) {
      return {};
    }
    if (top) {
      check_bottom(std::min(top->first, top->second), *run, *depth);
      return PrismShape{top->first, top->second, *run, *depth};
    }
    if (diameter) {
      check_bottom(*diameter, *run, *depth);
      return ConeShape{*diameter, *run, *depth};
    }
    return {};
  }

 private:
  [[nodiscard]] std::optional<std::pair<Length, Length>> read_top() {
    const YamlNode* const top = shape_.find("top");
    const std::string* const text =
        top == nullptr ? nullptr : read_text(*top, shape_.part("top"), problems_);
    if (text == nullptr) {
      return std::nullopt;
    }
    const auto sides = length_by_width(*text);
    if (!sides) {
      problems_.add(
          "wrong-shape",
          top->position,
          fmt::format("{}: '{}' is not a length by a width", shape_.subject().name, *text),
          "write top: 20 m x 10 m");
    } else if (!pond_width_range.holds(sides->first) || !pond_width_range.holds(sides->second)) {
      problems_.add("out-of-range",
                    top->position,
                    fmt::format("{}: '{}' is out of range", shape_.part("top"), *text),
                    fmt::format("each side must be {}", pond_width_range.told));
      return std::nullopt;
    }
    return sides;
  }

  /// Upright sides where none are given; nothing where they are faulty.
  [[nodiscard]] std::optional<double> read_sides() {
    const YamlNode* const sides = shape_.find("sides");
    if (sides == nullptr) {
      return 0.0;
    }
    const std::string* const text = read_text(*sides, shape_.part("sides"), problems_);
    if (text == nullptr) {
      return std::nullopt;
    }
    const auto run = side_run(*text);
    if (!run) {
      problems_.add("wrong-shape",
                    sides->position,
                    fmt::format("{}: '{}' is not a slope", shape_.subject().name, *text),
                    "write sides: 2:1, across before down");
    }
    return run;
  }

  /// Sides that meet above the bottom leave no room for it.
  void check_bottom(Length width, double run, Length depth) {
    constexpr double rounding = 1e-9;
    if (2.0 * run * depth.in_si() <= width.in_si() * (1.0 + rounding)) {
      return;
    }
    problems_.add("contradictory",
                  shape_.position_of("depth"),
                  fmt::format("{}: the sides meet above the bottom, at {:.0f} % of the depth",
                              shape_.subject().name,
                              100.0 * width.in_si() / (2.0 * run * depth.in_si())),
                  "measure depth and slope again; sides: 2:1 is 2 across for 1 down");
  }

  const MapReader& shape_;
  ProblemList& problems_;
};

PondShape read_shape(const YamlNode& node, const Subject& subject, ProblemList& problems) {
  const std::string what = subject.part("shape");
  if (node.kind == YamlNode::Kind::List) {
    return read_stage_areas(node, what, problems);
  }
  static constexpr std::array<std::string_view, 4> keys = {"top", "diameter", "sides", "depth"};
  const MapReader shape(node, Subject{what, node.position}, keys, problems);
  return shape.is_map() ? DugPond(shape, problems).read(node.position) : PondShape();
}

/// A rate such as "2 mm/day", or a word for the soil.
Seepage read_seepage(const YamlNode& node, const std::string& what, ProblemList& problems) {
  const std::string* const text = read_text(node, what, problems);
  if (text == nullptr) {
    return {};
  }
  if (std::find(soil_words.begin(), soil_words.end(), *text) != soil_words.end()) {
    return *text;
  }
  const bool is_number = !text->empty() && (text->front() == '-' || text->front() == '.' ||
                                            (text->front() >= '0' && text->front() <= '9'));
  if (is_number) {
    const auto rate = read_value(node, what, parse_depth_rate, problems);
    return rate ? Seepage(*rate) : Seepage();
  }
  report_unknown_word("unknown-word",
                      node.position,
                      fmt::format("{}: '{}' is neither a rate nor a soil", what, *text),
                      *text,
                      soil_words,
                      problems);
  return {};
}

std::optional<Catchment> read_catchment(const YamlNode& node,
                                        const Subject& subject,
                                        ProblemList& problems) {
  static constexpr std::array<std::string_view, 2> keys = {"area", "curve number"};
  const MapReader map(node, Subject{subject.part("catchment"), node.position}, keys, problems);
  std::optional<Area> area;
  if (const YamlNode* const value = map.require("area", "2 ha")) {
    const Range<Area> range{Area(), square_metres(1e9), "above 0 and at most 1000 km2", false};
    area = read_within(*value, map.part("area"), parse_area, range, problems);
  }
  std::optional<double> number;
  if (const YamlNode* const value = map.require("curve number", "74")) {
    const Range<double> range{0.0, 100.0, "above 0 and at most 100", false};
    number = read_within(*value, map.part("curve number"), parse_number, range, problems);
  }
  return area && number ? std::optional(Catchment{*area, *number, node.position}) : std::nullopt;
}

/// Whether the weather tells how rain falls by the day.
bool knows_rainy_days(const std::optional<Weather>& weather) {
  if (!weather) {
    return false;
  }
  const auto has_rain = [](const WeatherDay& day) { return day.rain.has_value(); };
  return (weather->rain && weather->rain_days) ||
         std::any_of(weather->days.begin(), weather->days.end(), has_rain);
}

}  // namespace

void read_pond_season(const MapReader& map, Pond& pond, Reading& reading) {
  ProblemList& problems = reading.problems;
  if (const YamlNode* const shape = map.find("shape")) {
    pond.shape = read_shape(*shape, map.subject(), problems);
  }
  if (const YamlNode* const spills = map.find("spills")) {
    pond.spills = read_level(*spills, map.part("spills"), problems);
  }
  if (const YamlNode* const seepage = map.find("seepage")) {
    pond.seepage = read_seepage(*seepage, map.part("seepage"), problems);
  }
  if (const YamlNode* const catchment = map.find("catchment")) {
    pond.catchment = read_catchment(*catchment, map.subject(), problems);
  }
  if (const YamlNode* const herd = map.find("stock drink here")) {
    pond.stock = HerdNeed{read_herd(*herd, map.subject(), reading)};
  }
}

void check_catchments(const Farm& farm, ProblemList& problems) {
  if (knows_rainy_days(farm.weather)) {
    return;
  }
  for (const Place& place : farm.places) {
    const auto* const pond = std::get_if<Pond>(&place.data);
    if (pond != nullptr && pond->catchment) {
      problems.add(
          "catchment-needs-days",
          pond->catchment->position,
          fmt::format("catchment of pond '{}' has no rain by the day: what runs off depends "
                      "on each storm, not on the month's sum",
                      place.name),
          "give 'weather' daily rain in a CSV file, or 'rain' with 'rain days' by month");
    }
  }
}

}  // namespace leat::model
