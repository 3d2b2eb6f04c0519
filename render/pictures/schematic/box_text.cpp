#include "render/pictures/schematic/box_text.h"

#include <cstddef>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "render/pictures/schematic/plain_label.h"

namespace leat::render {
namespace {

constexpr std::string_view between_facts = ", ";

/// The facts filled into lines, each fact whole where it fits a line at all.
std::vector<std::string> filled_lines(const FactLine& facts, std::size_t width) {
  std::vector<std::string> lines;
  bool has_room = false;
  for (const std::string& fact : facts) {
    const std::size_t length = characters_in(fact);
    const bool fits =
        has_room && characters_in(lines.back()) + between_facts.size() + length <= width;
    if (fits) {
      lines.back() += between_facts;
      lines.back() += fact;
    } else {
      lines.push_back(fact);
    }
    has_room = length <= width;  // after a broken fact the next starts a line of its own
  }
  return lines;
}

}  // namespace

void add_line(std::vector<std::string>& lines, std::string line) {
  if (!line.empty()) {
    lines.push_back(std::move(line));
  }
}

void add_facts(std::vector<FactLine>& lines, const FactLine& facts) {
  FactLine held;
  for (const std::string& fact : facts) {
    add_line(held, fact);
  }
  if (!held.empty()) {
    lines.push_back(std::move(held));
  }
}

std::string box_label(const BoxText& text, std::size_t width) {
  std::string label = plain_label({text.name}, width, LineEnd::Centred);
  for (const FactLine& line : text.facts) {
    label += plain_label(filled_lines(line, width), width, LineEnd::Left);
  }
  return label + plain_label(text.attention, width, LineEnd::Left);
}

std::string box_tooltip(const BoxText& text) {
  std::vector<std::string> parts{text.name};
  for (const FactLine& line : text.facts) {
    parts.insert(parts.end(), line.begin(), line.end());
  }
  parts.insert(parts.end(), text.attention.begin(), text.attention.end());
  return one_line(fmt::format("{}", fmt::join(parts, between_facts)));
}

}  // namespace leat::render
