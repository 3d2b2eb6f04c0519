#include "model/keys/value_reader.h"

#include <charconv>
#include <cmath>

#include <fmt/format.h>

namespace leat::model {

const std::string* read_text(const YamlNode& node, std::string_view what, ProblemList& problems) {
  if (node.kind == YamlNode::Kind::Refused) {
    return nullptr;
  }
  if (node.kind != YamlNode::Kind::Text) {
    report_wrong_shape(node, what, "one value is", problems);
    return nullptr;
  }
  // Reached only through escapes such as "\0": raw control characters never get this far.
  const bool controls = std::any_of(node.text.begin(), node.text.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte < 0x20 && c != '\n' && c != '\t') || byte == 0x7F;
  });
  if (controls) {
    problems.add("control-character",
                 node.position,
                 fmt::format("{} holds a control character", what),
                 "write the text without it");
    return nullptr;
  }
  return &node.text;
}

void report_quantity(const YamlNode& node,
                     std::string_view what,
                     const QuantityProblem& problem,
                     ProblemList& problems) {
  problems.add(
      problem.code, node.position, fmt::format("{}: {}", what, problem.text), problem.hint);
}

std::optional<Elevation> read_level(const YamlNode& node,
                                    std::string_view what,
                                    ProblemList& problems) {
  return read_within(node, what, parse_elevation, level_range, problems);
}

std::optional<int> read_count(const YamlNode& node,
                              std::string_view what,
                              Range<int> range,
                              ProblemList& problems) {
  const std::string* const text = read_text(node, what, problems);
  if (text == nullptr) {
    return std::nullopt;
  }
  int count = 0;
  const char* const end = text->data() + text->size();
  const auto [stopped, fault] = std::from_chars(text->data(), end, count);
  if (fault != std::errc() || stopped != end || !range.holds(count)) {
    problems.add("not-a-count",
                 node.position,
                 fmt::format("{}: '{}' is not a whole number {}", what, *text, range.told),
                 "write the number alone, such as 24");
    return std::nullopt;
  }
  return count;
}

std::optional<bool> read_truth(const YamlNode& node, std::string_view what, ProblemList& problems) {
  const std::string* const text = read_text(node, what, problems);
  if (text == nullptr) {
    return std::nullopt;
  }
  if (*text == "yes" || *text == "true") {
    return true;
  }
  if (*text == "no" || *text == "false") {
    return false;
  }
  problems.add("not-yes-or-no",
               node.position,
               fmt::format("{}: '{}' is neither yes nor no", what, *text),
               "write yes or no");
  return std::nullopt;
}

}  // namespace leat::model
