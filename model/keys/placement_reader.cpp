#include "model/keys/placement_reader.h"

#include <array>

#include <fmt/format.h>

#include "model/keys/value_reader.h"

namespace leat::model {
namespace {

/// A share of the pipe's length by which a written distance may pass its end through rounding.
constexpr double rounding = 1e-9;

}  // namespace

std::optional<Length> read_distance(const YamlNode& node,
                                    const std::string& what,
                                    const PipeReach& reach,
                                    ProblemList& problems) {
  const auto distance = read_value(node, what, parse_length, problems);
  if (distance && reach.reach && *reach.reach * (1.0 + rounding) < *distance) {
    problems.add("beyond-the-pipe",
                 node.position,
                 fmt::format("{}: '{}' is beyond the pipe's end", what, node.text),
                 "distances are counted along the path, from the pipe's start");
    return std::nullopt;
  }
  return distance;
}

std::optional<Placement> read_placement(const YamlNode& node,
                                        const std::string& what,
                                        const PipeReach& reach,
                                        ProblemList& problems) {
  const std::string* const text = read_text(node, what, problems);
  if (text == nullptr) {
    return std::nullopt;
  }
  Placement place;
  if (*text == "start") {
    place.where = Placement::Where::Start;
    return place;
  }
  if (*text == "end") {
    place.where = Placement::Where::End;
    return place;
  }
  // A word is a misspelt start or end, a number a distance.
  const bool is_word =
      !text->empty() && ((text->front() | 0x20) >= 'a') && ((text->front() | 0x20) <= 'z');
  if (is_word) {
    static constexpr std::array<std::string_view, 2> known = {"start", "end"};
    report_unknown_word(
        "unknown-word",
        node.position,
        fmt::format("{}: '{}' is neither start nor end nor a distance", what, *text),
        *text,
        known,
        problems);
    return std::nullopt;
  }
  const auto distance = read_distance(node, what, reach, problems);
  if (!distance) {
    return std::nullopt;
  }
  place.where = Placement::Where::AtDistance;
  place.distance = *distance;
  return place;
}

}  // namespace leat::model
