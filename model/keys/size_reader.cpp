#include "model/keys/size_reader.h"

#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/catalogue/pipe_catalogue.h"
#include "model/keys/value_reader.h"

namespace leat::model {
namespace {

/// Comparing a name with the whole catalogue takes time; a file of slips is told without.
constexpr int most_size_guesses = 20;

/// Walls no thicker than a metre, pressures and moduli no more than any material has.
constexpr Range<Length> wall_range{Length(), metres(1.0), "above 0 and at most 1 m", false};
constexpr Range<Pressure> rating_range{
    Pressure(), pascals(1e9), "above 0 and at most 1 GPa", false};
constexpr Range<Pressure> modulus_range{
    Pressure(), pascals(1e12), "above 0 and at most 1000 GPa", false};
constexpr Range<double> friction_range{0.0, 1.0, "above 0 and at most 1", false};
/// Old iron comes down to 40 and smooth plastic up to 150 (common practice, no source): the range
/// is wide, but holds no C whose power is nothing at all.
constexpr Range<double> hazen_williams_range{1.0, 1000.0, "from 1 to 1000", true};

/// Rough walls only make sense well inside the bore.
void read_roughness(const MapReader& map, PipeSize& size, ProblemList& problems) {
  const YamlNode* const node = map.find("roughness");
  if (node == nullptr) {
    return;
  }
  const auto roughness = read_value(*node, map.part("roughness"), parse_length, problems);
  if (roughness && Length() < size.bore && size.bore < 2.0 * *roughness) {
    problems.add(
        "out-of-range",
        node->position,
        fmt::format("{}: '{}' is more than half the bore", map.part("roughness"), node->text),
        "plastic pipe has 0.0015 mm, galvanised steel 0.15 mm");
    return;
  }
  set_if(size.roughness, roughness);
}

std::optional<PipeSize> read_own_size(const YamlNode& node,
                                      const Subject& pipe,
                                      ProblemList& problems) {
  static constexpr std::array<std::string_view, 7> keys = {
      "bore", "roughness", "wall", "rating", "modulus", "friction factor", "C"};
  const std::size_t before = problems.count();
  const MapReader map(node, Subject{pipe.part("size"), node.position}, keys, problems);
  PipeSize size;
  if (const YamlNode* const value = map.require("bore", "26.6 mm")) {
    set_if(size.bore, read_within(*value, map.part("bore"), parse_length, bore_range, problems));
    size.text = "bore " + value->text;
  }
  read_roughness(map, size, problems);
  if (const YamlNode* const value = map.find("wall")) {
    size.wall = read_within(*value, map.part("wall"), parse_length, wall_range, problems);
    if (size.wall) {
      size.outside_diameter = size.bore + 2.0 * *size.wall;
    }
  }
  if (const YamlNode* const value = map.find("rating")) {
    size.rating = read_within(*value, map.part("rating"), parse_pressure, rating_range, problems);
  }
  if (const YamlNode* const value = map.find("modulus")) {
    size.modulus =
        read_within(*value, map.part("modulus"), parse_pressure, modulus_range, problems);
  }
  if (const YamlNode* const value = map.find("friction factor")) {
    size.friction_factor =
        read_within(*value, map.part("friction factor"), parse_number, friction_range, problems);
  }
  if (const YamlNode* const value = map.find("C")) {
    size.hazen_williams_c =
        read_within(*value, map.part("C"), parse_number, hazen_williams_range, problems);
  }
  if (map.has("friction factor") && map.has("C")) {
    problems.add("contradictory",
                 map.position_of("C"),
                 fmt::format("{} has both a friction factor and a C", map.subject().name),
                 "keep one: each is a law of its own");
  }
  return problems.count() == before ? std::optional(size) : std::nullopt;
}

}  // namespace

std::optional<PipeSize> SizeReader::read(const YamlNode& node,
                                         const Subject& pipe,
                                         LoadContext& context) {
  if (node.kind == YamlNode::Kind::Map) {
    return read_own_size(node, pipe, context.problems);
  }
  const std::string* const text = read_text(node, pipe.part("size"), context.problems);
  if (text == nullptr) {
    return std::nullopt;
  }
  if (*text == "choose") {
    context.unsolved.push_back(
        UnsolvedKey{fmt::format("size: choose on {}", pipe.name), node.position});
    PipeSize size;
    size.text = *text;
    size.choose = true;
    return size;
  }
  return look_up(node, pipe, context.problems);
}

std::optional<PipeSize> SizeReader::look_up(const YamlNode& node,
                                            const Subject& pipe,
                                            ProblemList& problems) {
  auto known = known_.find(node.text);
  if (known == known_.end()) {
    known = known_.emplace(node.text, find_pipe_size(node.text)).first;
  }
  if (known->second) {
    return known->second;
  }
  std::string hint = "'leat pipes' lists the sizes";
  if (++guesses_ <= most_size_guesses) {
    const std::vector<std::string> nearest = nearest_pipe_sizes(node.text);
    if (!nearest.empty()) {
      hint = fmt::format("nearest are '{}'; 'leat pipes' lists all", fmt::join(nearest, "', '"));
    }
  }
  problems.add("unknown-size",
               node.position,
               fmt::format("{}: '{}' is not in the pipe catalogue", pipe.part("size"), node.text),
               std::move(hint));
  return std::nullopt;
}

}  // namespace leat::model
