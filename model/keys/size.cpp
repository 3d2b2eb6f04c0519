#include "model/keys/size.h"

#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/catalogue/pipe_catalogue.h"
#include "model/keys/kinds.h"

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

bool read_bore(const KeyValue& value, PipeSize& size) {
  const auto bore = read_within(value.node, value.what, parse_length, bore_range, value.problems());
  set_if(size.bore, bore);
  size.text = "bore " + value.node.text;
  return bore.has_value();
}

/// Rough walls only make sense well inside the bore.
bool read_roughness(const KeyValue& value, PipeSize& size) {
  const auto roughness = read_value(value.node, value.what, parse_length, value.problems());
  if (roughness && Length() < size.bore && size.bore < 2.0 * *roughness) {
    value.problems().add(
        "out-of-range",
        value.node.position,
        fmt::format("{}: '{}' is more than half the bore", value.what, value.node.text),
        "plastic pipe has 0.0015 mm, galvanised steel 0.15 mm");
    return false;
  }
  set_if(size.roughness, roughness);
  return roughness.has_value();
}

std::optional<PipeSize> read_own_size(const YamlNode& node,
                                      const Subject& pipe,
                                      LoadContext& context) {
  ProblemList& problems = context.problems;
  const std::size_t before = problems.count();
  const MapReader map(
      node, Subject{pipe.part("size"), node.position}, own_size_keys().names(), problems);
  PipeSize size;
  own_size_keys().read(map, size, context);
  if (size.wall) {
    size.outside_diameter = size.bore + 2.0 * *size.wall;
  }
  if (map.has("friction factor") && map.has("C")) {
    problems.add("contradictory",
                 map.position_of("C"),
                 fmt::format("{} has both a friction factor and a C", map.subject().name),
                 "keep one: each is a law of its own");
  }
  return problems.count() == before ? std::optional(size) : std::nullopt;
}

std::vector<Key<PipeSize>> wall_keys() {
  return {
      key<PipeSize>("bore",
                    own(Kind{"length"}, read_bore),
                    {.sentence = "The pipe's inside width.",
                     .examples = {"26.6 mm", "1.05 in"},
                     .required = "26.6 mm",
                     .told = "inside diameter, above 0 and at most 3 m"}),
      key<PipeSize>(
          "roughness",
          own(Kind{"length"}, read_roughness),
          {.sentence = "Roughness of its inner wall; 0.0015 mm, as of plastic, unless given.",
           .examples = {"0.0015 mm"},
           .told = "at most half the bore",
           .if_absent = "0.0015 mm, plastic"}),
      key<PipeSize>(
          "wall",
          quantity(&PipeSize::wall, wall_range),
          {.sentence = "Thickness of its wall, for suction and for the knock of a shut valve.",
           .examples = {"3 mm"},
           .told = "thickness, at most 1 m",
           .if_absent = "knock and suction not judged"}),
      key<PipeSize>("rating",
                    quantity(&PipeSize::rating, rating_range),
                    {.sentence = "Pressure it is rated for, as printed on it.",
                     .examples = {"100 psi", "6 bar"},
                     .told = "pressure it is sold for, at most 1 GPa",
                     .if_absent = "not judged"}),
      key<PipeSize>(
          "modulus",
          quantity(&PipeSize::modulus, modulus_range),
          {.sentence = "Stiffness of its material, for suction and for the knock of a shut valve.",
           .examples = {"8000 bar"},
           .told = "of the wall, short load, at most 1000 GPa",
           .if_absent = "knock and suction not judged"})};
}

std::vector<Key<PipeSize>> friction_keys() {
  return {
      key<PipeSize>(
          "friction factor",
          number(&PipeSize::friction_factor, friction_range),
          {.sentence = "A fixed friction factor instead of one from roughness and flow: for worked "
                       "examples.",
           .examples = {"0.02"},
           .told = "Darcy's f, above 0 and at most 1, instead of roughness: textbook cases"}),
      key<PipeSize>(
          "C",
          number(&PipeSize::hazen_williams_c, hazen_williams_range),
          {.sentence = "Hazen-Williams C instead of a roughness: for comparison with handbooks.",
           .examples = {"140"},
           .told = "Hazen and Williams', 1 to 1000, instead of roughness: handbook cases"})};
}

}  // namespace

const Keys<PipeSize>& own_size_keys() {
  static const Keys<PipeSize> keys({"size", ""},
                                   joined<PipeSize>({wall_keys(), friction_keys()}),
                                   {{KeyGroup::Stand::AtMostOne, {"friction factor", "C"}}});
  return keys;
}

std::optional<PipeSize> SizeReader::read(const YamlNode& node,
                                         const Subject& pipe,
                                         LoadContext& context) {
  if (node.kind == YamlNode::Kind::Map) {
    return read_own_size(node, pipe, context);
  }
  const std::string* const text = read_text(node, pipe.part("size"), context.problems);
  if (text == nullptr) {
    return std::nullopt;
  }
  if (*text == "choose") {
    PipeSize size;
    size.text = *text;
    size.choose = node.position;
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
