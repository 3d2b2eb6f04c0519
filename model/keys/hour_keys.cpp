#include "model/keys/hour_keys.h"

#include <fmt/format.h>

#include "model/keys/value_reader.h"
#include "model/quantity/written_quantity.h"

namespace leat::model {
namespace {

/// A time of day such as 6:00, up to 24:00.
std::optional<Duration> clock_time(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == 0 || colon > 2 || text.size() != colon + 3) {
    return std::nullopt;
  }
  int value = 0;
  for (const char c : text) {
    if (c != ':' && (c < '0' || c > '9')) {
      return std::nullopt;
    }
    value = c == ':' ? value : value * 10 + (c - '0');
  }
  const bool sound = value / 100 < 24 ? value % 100 < 60 : value == 2400;
  return sound ? std::optional(hours(value / 100) + seconds(60.0 * (value % 100))) : std::nullopt;
}

std::optional<ClockRange> clock_range(std::string_view text) {
  const std::size_t dash = text.find('-');
  if (dash == std::string_view::npos) {
    return std::nullopt;
  }
  const auto from = clock_time(without_outer_blanks(text.substr(0, dash)));
  const auto to = clock_time(without_outer_blanks(text.substr(dash + 1)));
  return from && to && *from != *to ? std::optional(ClockRange{*from, *to}) : std::nullopt;
}

std::optional<Duration> hours_a_day(std::string_view text) {
  constexpr std::string_view ending = "/day";
  if (!text.ends_with(ending)) {
    return std::nullopt;
  }
  text.remove_suffix(ending.size());
  const Parsed<Duration> parsed = parse_duration(text);
  const auto* const found = std::get_if<Duration>(&parsed);
  return found != nullptr && Duration() < *found && !(hours(24.0) < *found) ? std::optional(*found)
                                                                            : std::nullopt;
}

}  // namespace

RunTimes read_run_times(const YamlNode& node,
                        std::string_view what,
                        HoursToo hours_too,
                        ProblemList& problems) {
  RunTimes times;
  if (node.kind == YamlNode::Kind::List) {
    for (const YamlNode& item : node.items) {
      for (const ClockRange range : read_run_times(item, what, HoursToo::No, problems).ranges) {
        times.ranges.push_back(range);
      }
    }
    return times;
  }
  const std::string* const text = read_text(node, what, problems);
  if (text == nullptr) {
    return times;
  }
  if (const auto range = clock_range(*text)) {
    times.ranges.push_back(*range);
    return times;
  }
  if (hours_too == HoursToo::Yes) {
    times.hours_a_day = hours_a_day(*text);
    if (times.hours_a_day) {
      return times;
    }
  }
  problems.add("not-clock-hours",
               node.position,
               fmt::format("{}: '{}' is not a range of the clock", what, *text),
               hours_too == HoursToo::Yes ? "write 6:00-9:00 or 4 h/day" : "write 6:00-9:00");
  return times;
}

}  // namespace leat::model
