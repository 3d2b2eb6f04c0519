#include "model/keys/fitting_reader.h"

#include <array>
#include <charconv>

#include <fmt/format.h>

#include "model/catalogue/fitting_catalogue.h"
#include "model/keys/value_reader.h"

namespace leat::model {
namespace {

constexpr int most_pieces = 1000;

struct CountedName {
  int count = 1;
  std::string_view name;
};

/// "2 elbow" is two of them, but "45 elbow" is a name.
CountedName split_count(std::string_view text) {
  if (find_fitting(text) != nullptr) {
    return CountedName{1, text};
  }
  CountedName split{1, text};
  const char* const end = text.data() + text.size();
  int count = 0;
  const auto [stopped, fault] = std::from_chars(text.data(), end, count);
  const bool counted = fault == std::errc() && stopped != end && *stopped == ' ' && count >= 1 &&
                       count <= most_pieces;
  if (counted) {
    split.count = count;
    split.name = text.substr(static_cast<std::size_t>(stopped - text.data()));
    split.name.remove_prefix(std::min(split.name.find_first_not_of(' '), split.name.size()));
  }
  return split;
}

void report_part(const YamlNode& node,
                 const PipeReach& reach,
                 const QuantityProblem& problem,
                 ProblemList& problems) {
  report_quantity(node, reach.pipe.part("fittings"), problem, problems);
}

/// "k 2.5": a loss coefficient of one's own.
std::optional<Fitting> read_own_k(const YamlNode& node,
                                  std::string_view number,
                                  const PipeReach& reach,
                                  ProblemList& problems) {
  const Parsed<double> parsed = parse_number(number);
  if (const auto* const problem = std::get_if<QuantityProblem>(&parsed)) {
    report_part(node, reach, *problem, problems);
    return std::nullopt;
  }
  Fitting fitting;
  fitting.name = "k";
  fitting.loss_coefficient = std::get<double>(parsed);
  if (!loss_coefficient_range.holds(fitting.loss_coefficient)) {
    QuantityProblem problem;
    problem.code = "out-of-range";
    problem.text = fmt::format("'{}' is out of range", node.text);
    problem.hint = fmt::format("a K must be {}", loss_coefficient_range.told);
    report_part(node, reach, problem, problems);
    return std::nullopt;
  }
  return fitting;
}

/// "contraction from 2 in", "expansion to 50 mm".
std::optional<Fitting> read_bore_change(const YamlNode& node,
                                        std::string_view name,
                                        std::string_view bore_text,
                                        const PipeReach& reach,
                                        ProblemList& problems) {
  const Parsed<Length> parsed = parse_length(bore_text);
  if (const auto* const problem = std::get_if<QuantityProblem>(&parsed)) {
    report_part(node, reach, *problem, problems);
    return std::nullopt;
  }
  const Length other = std::get<Length>(parsed);
  if (!bore_range.holds(other)) {
    QuantityProblem problem;
    problem.code = "out-of-range";
    problem.text = fmt::format("'{}' is out of range", bore_text);
    problem.hint = fmt::format("a bore must be {}", bore_range.told);
    report_part(node, reach, problem, problems);
    return std::nullopt;
  }
  Fitting fitting;
  fitting.name = fmt::format("{} {}", name, bore_text);
  if (Length() < reach.bore) {
    fitting.loss_coefficient = name.starts_with("contraction") ? contraction_k(reach.bore, other)
                                                               : expansion_k(reach.bore, other);
  }
  fitting.place.where =
      name.starts_with("contraction") ? Placement::Where::Start : Placement::Where::End;
  return fitting;
}

Fitting from_catalogue(const CatalogueFitting& row, Length bore) {
  Fitting fitting;
  fitting.name = row.name;
  fitting.loss_coefficient = loss_coefficient(row, bore);
  fitting.one_way = row.one_way;
  fitting.lifting_velocity = lifting_velocity(row, bore);
  fitting.opening_head = row.opening_head;
  fitting.place.where = row.default_place;
  return fitting;
}

void report_unknown_fitting(const YamlNode& node,
                            std::string_view name,
                            const PipeReach& reach,
                            ProblemList& problems) {
  const bool bore_missing = name == "sudden contraction" || name == "contraction" ||
                            name == "sudden expansion" || name == "expansion";
  if (bore_missing) {
    problems.add("unknown-fitting",
                 node.position,
                 fmt::format("{}: '{}' needs a bore", reach.pipe.part("fittings"), name),
                 "write 'contraction from 2 in' or 'expansion to 2 in'");
    return;
  }
  std::vector<std::string> known;
  for (const CatalogueFitting& row : fitting_catalogue()) {
    known.push_back(row.name);
  }
  std::string hint = did_you_mean(name, known);
  problems.add(
      "unknown-fitting",
      node.position,
      fmt::format("{}: '{}' is not in the fitting catalogue", reach.pipe.part("fittings"), name),
      hint.empty() ? "'leat fittings' lists them; 'k 2.5' is a K of your own" : hint);
}

/// One fitting by its text, at its usual place.
std::optional<Fitting> read_fitting(const YamlNode& node,
                                    std::string_view text,
                                    const PipeReach& reach,
                                    ProblemList& problems) {
  const CountedName counted = split_count(text);
  const auto behind = [&](std::string_view start) { return counted.name.substr(start.size()); };
  std::optional<Fitting> fitting;
  constexpr std::string_view own = "k ";
  constexpr std::string_view contraction = "contraction from ";
  constexpr std::string_view expansion = "expansion to ";
  if (counted.name.starts_with(own)) {
    fitting = read_own_k(node, behind(own), reach, problems);
  } else if (counted.name.starts_with(contraction)) {
    fitting = read_bore_change(node, "contraction from", behind(contraction), reach, problems);
  } else if (counted.name.starts_with(expansion)) {
    fitting = read_bore_change(node, "expansion to", behind(expansion), reach, problems);
  } else if (const CatalogueFitting* const row = find_fitting(counted.name)) {
    fitting = from_catalogue(*row, reach.bore);
  } else {
    report_unknown_fitting(node, counted.name, reach, problems);
  }
  if (fitting) {
    fitting->count = counted.count;
    fitting->position = node.position;
  }
  return fitting;
}

/// {hinged foot valve: start}.
std::optional<Fitting> read_placed_fitting(const YamlNode& node,
                                           const PipeReach& reach,
                                           ProblemList& problems) {
  const std::string what = reach.pipe.part("fittings");
  if (node.entries.size() != 1) {
    report_wrong_shape(node, what, "one {fitting: place} is", problems);
    return std::nullopt;
  }
  const YamlEntry& entry = node.entries.front();
  YamlNode name;
  name.kind = YamlNode::Kind::Text;
  name.text = entry.key;
  name.position = entry.position;
  std::optional<Fitting> fitting = read_fitting(name, entry.key, reach, problems);
  const auto place = read_placement(
      entry.value, fmt::format("place of {} on {}", entry.key, reach.pipe.name), reach, problems);
  if (fitting && place) {
    fitting->place = *place;
  }
  return fitting;
}

}  // namespace

std::vector<Fitting> read_fittings(const YamlNode& node,
                                   const PipeReach& reach,
                                   ProblemList& problems) {
  std::vector<Fitting> fittings;
  if (node.kind != YamlNode::Kind::List) {
    report_wrong_shape(
        node, reach.pipe.part("fittings"), "a list, such as [strainer, 2 elbow], is", problems);
    return fittings;
  }
  for (const YamlNode& item : node.items) {
    std::optional<Fitting> fitting;
    if (item.kind == YamlNode::Kind::Map) {
      fitting = read_placed_fitting(item, reach, problems);
    } else if (const std::string* const text =
                   read_text(item, reach.pipe.part("fittings"), problems)) {
      fitting = read_fitting(item, *text, reach, problems);
    }
    if (fitting) {
      fittings.push_back(std::move(*fitting));
    }
  }
  return fittings;
}

}  // namespace leat::model
