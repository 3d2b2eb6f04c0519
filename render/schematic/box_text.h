// What is written in one box of the drawing, before it is broken into lines.
#pragma once

#include <string>
#include <vector>

namespace leat::render {

/// A name, facts about the thing, and what calls for attention. No entry is empty.
struct BoxText {
  std::string name;
  std::vector<std::string> facts;
  std::vector<std::string> attention;
};

/// Adds a line unless it is empty: many facts only hold for some places and pipes.
void add_line(std::vector<std::string>& lines, std::string line);

/// Each fact on a line of its own, or all facts in one run of text: wider and lower.
enum class FactFlow { Separate, Joined };

/// The box's label for Graphviz, with lines of at most `width` characters.
[[nodiscard]] std::string box_label(const BoxText& text, std::size_t width, FactFlow flow);

/// The whole text on one line, as shown when the pointer rests on the box.
[[nodiscard]] std::string box_tooltip(const BoxText& text);

}  // namespace leat::render
