// Single values of the farm file: quantities, shares, counts, words of a fixed list, yes and no.
#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include "model/keys/map_reader.h"
#include "model/quantity/quantity_text.h"

namespace leat::model {

/// The text of a value; a list, a map or nothing is reported.
[[nodiscard]] const std::string* read_text(const YamlNode& node,
                                           std::string_view what,
                                           ProblemList& problems);

/// Reports that a text is not the quantity that is wanted.
void report_quantity(const YamlNode& node,
                     std::string_view what,
                     const QuantityProblem& problem,
                     ProblemList& problems);

/// A quantity, by the parser of its kind.
template <class Value>
[[nodiscard]] std::optional<Value> read_value(const YamlNode& node,
                                              std::string_view what,
                                              Parsed<Value> (*parse)(std::string_view),
                                              ProblemList& problems) {
  const std::string* const text = read_text(node, what, problems);
  if (text == nullptr) {
    return std::nullopt;
  }
  Parsed<Value> parsed = parse(*text);
  if (const auto* const problem = std::get_if<QuantityProblem>(&parsed)) {
    report_quantity(node, what, *problem, problems);
    return std::nullopt;
  }
  return std::get<Value>(std::move(parsed));
}

/// Which values are sane, and how the range is told.
template <class Value>
struct Range {
  Value low;
  Value high;
  std::string_view told;  // "from 1 mm to 100 km"
  bool low_included = true;

  [[nodiscard]] bool holds(Value value) const {
    return (low_included ? !(value < low) : low < value) && !(high < value);
  }
};

inline constexpr Range<Length> bore_range{Length(), metres(3.0), "above 0 and at most 3 m", false};
inline constexpr Range<Length> length_range{
    millimetres(1.0), metres(1e5), "from 1 mm to 100 km", true};
inline constexpr Range<Length> depth_range{
    Length(), metres(100.0), "above 0 and at most 100 m", false};
inline constexpr Range<double> loss_coefficient_range{0.0, 1e6, "from 0 to 1000000", true};
/// No opening passes less than a hundredth of what Torricelli's law gives (common practice, no
/// source), and 1e-300 squared is nothing at all.
inline constexpr Range<double> discharge_coefficient_range{0.01, 1.0, "from 0.01 to 1", true};
inline constexpr Range<Elevation> level_range{
    elevation_metres(-2e4), elevation_metres(2e4), "from -20 km to 20 km", true};

/// A quantity within a range; outside it is reported (code out-of-range).
template <class Value>
[[nodiscard]] std::optional<Value> read_within(const YamlNode& node,
                                               std::string_view what,
                                               Parsed<Value> (*parse)(std::string_view),
                                               const Range<Value>& range,
                                               ProblemList& problems) {
  const std::optional<Value> value = read_value(node, what, parse, problems);
  if (value && !range.holds(*value)) {
    QuantityProblem problem;
    problem.code = "out-of-range";
    problem.text = "'" + node.text + "' is out of range";
    problem.hint = "it must be " + std::string(range.told);
    report_quantity(node, what, problem, problems);
    return std::nullopt;
  }
  return value;
}

/// A level on the farm's datum.
[[nodiscard]] std::optional<Elevation> read_level(const YamlNode& node,
                                                  std::string_view what,
                                                  ProblemList& problems);

/// A whole number from `low` to `high`.
[[nodiscard]] std::optional<int> read_count(const YamlNode& node,
                                            std::string_view what,
                                            Range<int> range,
                                            ProblemList& problems);

/// A word of the file and what it stands for.
template <class Meaning>
using Word = std::pair<std::string_view, Meaning>;

/// One of a list of words (code unknown-word).
template <class Meaning, std::size_t count>
[[nodiscard]] std::optional<Meaning> read_word(const YamlNode& node,
                                               std::string_view what,
                                               const std::array<Word<Meaning>, count>& words,
                                               ProblemList& problems) {
  const std::string* const text = read_text(node, what, problems);
  if (text == nullptr) {
    return std::nullopt;
  }
  std::array<std::string_view, count> known;
  for (std::size_t i = 0; i < count; ++i) {
    if (words[i].first == *text) {
      return words[i].second;
    }
    known[i] = words[i].first;
  }
  report_unknown_word("unknown-word",
                      node.position,
                      std::string(what) + ": '" + *text + "' is not one of its words",
                      *text,
                      known,
                      problems);
  return std::nullopt;
}

/// yes or no; true and false are taken too, for editors that write them (code not-yes-or-no).
[[nodiscard]] std::optional<bool> read_truth(const YamlNode& node,
                                             std::string_view what,
                                             ProblemList& problems);

/// Sets a member where the key stands and its value is sound.
template <class Member, class Value>
void set_if(Member& member, const std::optional<Value>& value) {
  if (value) {
    member = *value;
  }
}

}  // namespace leat::model
