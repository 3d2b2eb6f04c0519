#include "model/season_keys.h"

#include <array>

#include <fmt/format.h>

#include "model/need_reader.h"
#include "model/value_reader.h"

namespace leat::model {
namespace {

bool is_clock_time(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == 0 || colon > 2 || text.size() != colon + 3) {
    return false;
  }
  int value = 0;
  for (const char c : text) {
    if (c != ':' && (c < '0' || c > '9')) {
      return false;
    }
    value = c == ':' ? value : value * 10 + (c - '0');
  }
  return value / 100 < 24 ? value % 100 < 60 : value == 2400;
}

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

bool is_clock_range(std::string_view text) {
  const std::size_t dash = text.find('-');
  return dash != std::string_view::npos && is_clock_time(trimmed(text.substr(0, dash))) &&
         is_clock_time(trimmed(text.substr(dash + 1)));
}

bool is_hours_a_day(std::string_view text) {
  constexpr std::string_view ending = "/day";
  if (!text.ends_with(ending)) {
    return false;
  }
  text.remove_suffix(ending.size());
  return std::holds_alternative<Duration>(parse_duration(text));
}

/// [level, area] pairs, lowest first.
void check_shape_list(const YamlNode& node, const std::string& what, ProblemList& problems) {
  std::optional<Elevation> below;
  for (const YamlNode& pair : node.items) {
    if (pair.kind != YamlNode::Kind::List || pair.items.size() != 2) {
      report_wrong_shape(pair, what, "a pair [level, area] is", problems);
      continue;
    }
    const auto level = read_level(pair.items[0], "level in " + what, problems);
    (void)read_value(pair.items[1], "area in " + what, parse_area, problems);
    if (level && below && !(*below < *level)) {
      problems.add("not-rising",
                   pair.position,
                   fmt::format("{}: the levels do not rise", what),
                   "list the levels from the bottom up");
    }
    below = level;
  }
}

/// "20 m x 10 m" or "2:1".
bool is_rectangle(std::string_view text) {
  const std::size_t times = text.find(" x ");
  return times != std::string_view::npos &&
         std::holds_alternative<Length>(parse_length(text.substr(0, times))) &&
         std::holds_alternative<Length>(parse_length(text.substr(times + 3)));
}

bool is_side_slope(std::string_view text) {
  const std::size_t colon = text.find(':');
  return colon != std::string_view::npos &&
         std::holds_alternative<double>(parse_number(text.substr(0, colon))) &&
         std::holds_alternative<double>(parse_number(text.substr(colon + 1)));
}

void check_shape(const YamlNode& node, const Subject& subject, ProblemList& problems) {
  const std::string what = subject.part("shape");
  if (node.kind == YamlNode::Kind::List) {
    check_shape_list(node, what, problems);
    return;
  }
  static constexpr std::array<std::string_view, 4> keys = {"top", "diameter", "sides", "depth"};
  const MapReader shape(node, Subject{what, node.position}, keys, problems);
  if (!shape.is_map()) {
    return;
  }
  if (shape.has("top") == shape.has("diameter")) {
    problems.add("contradictory",
                 node.position,
                 fmt::format("{} wants a top or a diameter", what),
                 "write {top: 20 m x 10 m, sides: 2:1, depth: 2 m}");
  }
  if (const YamlNode* const top = shape.find("top")) {
    const std::string* const text = read_text(*top, shape.part("top"), problems);
    if (text != nullptr && !is_rectangle(*text)) {
      problems.add("wrong-shape",
                   top->position,
                   fmt::format("{}: '{}' is not a length by a width", what, *text),
                   "write top: 20 m x 10 m");
    }
  }
  if (const YamlNode* const diameter = shape.find("diameter")) {
    (void)read_value(*diameter, shape.part("diameter"), parse_length, problems);
  }
  if (const YamlNode* const depth = shape.require("depth", "2 m")) {
    (void)read_within(*depth, shape.part("depth"), parse_length, depth_range, problems);
  }
  if (const YamlNode* const sides = shape.find("sides")) {
    const std::string* const text = read_text(*sides, shape.part("sides"), problems);
    if (text != nullptr && !is_side_slope(*text)) {
      problems.add("wrong-shape",
                   sides->position,
                   fmt::format("{}: '{}' is not a slope", what, *text),
                   "write sides: 2:1");
    }
  }
}

/// A rate such as "2 mm/day", or a word for the soil: which words there are is the season's to say.
void check_seepage(const YamlNode& node, const std::string& what, ProblemList& problems) {
  const std::string* const text = read_text(node, what, problems);
  const bool is_number = text != nullptr && !text->empty() &&
                         (text->front() == '-' || text->front() == '.' ||
                          (text->front() >= '0' && text->front() <= '9'));
  if (is_number) {
    (void)read_value(node, what, parse_depth_rate, problems);
  }
}

void check_catchment(const YamlNode& node, const Subject& subject, ProblemList& problems) {
  static constexpr std::array<std::string_view, 2> keys = {"area", "curve number"};
  const MapReader catchment(
      node, Subject{subject.part("catchment"), node.position}, keys, problems);
  if (const YamlNode* const area = catchment.require("area", "2 ha")) {
    (void)read_value(*area, catchment.part("area"), parse_area, problems);
  }
  if (const YamlNode* const number = catchment.find("curve number")) {
    const Range<double> range{0.0, 100.0, "above 0 and at most 100", false};
    (void)read_within(*number, catchment.part("curve number"), parse_number, range, problems);
  }
}

}  // namespace

void check_map_point(const YamlNode& node, std::string_view what, ProblemList& problems) {
  if (node.kind != YamlNode::Kind::List || node.items.size() != 2) {
    report_wrong_shape(node, what, "a pair [longitude, latitude] or [x, y] is", problems);
    return;
  }
  const std::string first = fmt::format("first value of {}", what);
  const std::string second = fmt::format("second value of {}", what);
  const bool degrees = node.items[0].kind == YamlNode::Kind::Text &&
                       std::holds_alternative<double>(parse_number(node.items[0].text));
  if (degrees) {
    const Range<double> longitude{-180.0, 180.0, "from -180 to 180 degrees", true};
    const Range<double> latitude{-90.0, 90.0, "from -90 to 90 degrees", true};
    (void)read_within(node.items[0], first, parse_number, longitude, problems);
    (void)read_within(node.items[1], second, parse_number, latitude, problems);
  } else {
    // A coordinate may be negative, as a level may.
    (void)read_value(node.items[0], first, parse_elevation, problems);
    (void)read_value(node.items[1], second, parse_elevation, problems);
  }
}

void check_clock_ranges(const YamlNode& node,
                        std::string_view what,
                        HoursToo hours_too,
                        ProblemList& problems) {
  if (node.kind == YamlNode::Kind::List) {
    for (const YamlNode& item : node.items) {
      check_clock_ranges(item, what, HoursToo::No, problems);
    }
    return;
  }
  const std::string* const text = read_text(node, what, problems);
  if (text == nullptr || is_clock_range(*text) ||
      (hours_too == HoursToo::Yes && is_hours_a_day(*text))) {
    return;
  }
  problems.add("not-clock-hours",
               node.position,
               fmt::format("{}: '{}' is not a range of the clock", what, *text),
               hours_too == HoursToo::Yes ? "write 6:00-9:00 or 4 h/day" : "write 6:00-9:00");
}

void check_pond_season(const MapReader& pond, Reading& reading) {
  ProblemList& problems = reading.problems;
  if (const YamlNode* const shape = pond.find("shape")) {
    check_shape(*shape, pond.subject(), problems);
  }
  if (const YamlNode* const spills = pond.find("spills")) {
    (void)read_level(*spills, pond.part("spills"), problems);
  }
  if (const YamlNode* const seepage = pond.find("seepage")) {
    check_seepage(*seepage, pond.part("seepage"), problems);
  }
  if (const YamlNode* const catchment = pond.find("catchment")) {
    check_catchment(*catchment, pond.subject(), problems);
  }
  if (const YamlNode* const herd = pond.find("stock drink here")) {
    (void)read_herd(*herd, pond.subject(), reading);
  }
}

void check_free_text(const YamlNode& node, std::string_view what, ProblemList& problems) {
  (void)read_text(node, what, problems);
}

}  // namespace leat::model
