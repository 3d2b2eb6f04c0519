// What is written in one box of the drawing, before it is broken into lines.
#pragma once

#include <string>
#include <vector>

namespace leat::render {

/// Facts that may share a line. Between two of them is the best place to start a new one.
using FactLine = std::vector<std::string>;

/// A name, lines of facts about the thing, and what calls for attention. No entry is empty.
struct BoxText {
  std::string name;
  std::vector<FactLine> facts;
  std::vector<std::string> attention;
};

/// Adds a line unless it is empty: many facts only hold for some places and pipes.
void add_line(std::vector<std::string>& lines, std::string line);

/// Adds those of the facts that are not empty as one line.
void add_facts(std::vector<FactLine>& lines, const FactLine& facts);

/// The box's label for Graphviz, with lines of at most `width` characters. A line that is too long
/// ends between two facts, without a comma; only a fact that is too long by itself is broken.
[[nodiscard]] std::string box_label(const BoxText& text, std::size_t width);

/// The whole text on one line, as shown when the pointer rests on the box.
[[nodiscard]] std::string box_tooltip(const BoxText& text);

}  // namespace leat::render
