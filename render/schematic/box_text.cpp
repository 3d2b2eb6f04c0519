#include "render/schematic/box_text.h"

#include <utility>

#include <fmt/format.h>

#include "render/schematic/plain_label.h"

namespace leat::render {

void add_line(std::vector<std::string>& lines, std::string line) {
  if (!line.empty()) {
    lines.push_back(std::move(line));
  }
}

std::string box_label(const BoxText& text, std::size_t width, FactFlow flow) {
  std::string label = plain_label({text.name}, width, LineEnd::Centred);
  if (flow == FactFlow::Joined) {
    label += plain_label({fmt::format("{}", fmt::join(text.facts, ", "))}, width, LineEnd::Left);
  } else {
    label += plain_label(text.facts, width, LineEnd::Left);
  }
  return label + plain_label(text.attention, width, LineEnd::Left);
}

std::string box_tooltip(const BoxText& text) {
  std::vector<std::string> parts{text.name};
  parts.insert(parts.end(), text.facts.begin(), text.facts.end());
  parts.insert(parts.end(), text.attention.begin(), text.attention.end());
  return one_line(fmt::format("{}", fmt::join(parts, ", ")));
}

}  // namespace leat::render
