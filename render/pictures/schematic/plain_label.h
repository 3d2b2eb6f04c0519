// User text made safe for a Graphviz label, and broken into short lines.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "render/words/running_text.h"

namespace leat::render {

/// Characters in printable text.
[[nodiscard]] std::size_t characters_in(std::string_view text);

/// The text with every backslash doubled: Graphviz reads `\N`, `\G`, `\l` and others as commands.
[[nodiscard]] std::string without_commands(std::string_view text);

/// The text broken at spaces into lines of at most `width` characters; a longer word is cut.
[[nodiscard]] std::vector<std::string> broken_into_lines(std::string_view text, std::size_t width);

/// How each line of a label ends: the line is centred in its box, or stands at its left side.
enum class LineEnd { Centred, Left };

/// A Graphviz label of the given lines, each printable, broken at `width` and free of commands.
[[nodiscard]] std::string plain_label(const std::vector<std::string>& lines,
                                      std::size_t width,
                                      LineEnd end);

/// The text for a tooltip: printable, free of commands, not broken.
[[nodiscard]] std::string one_line(std::string_view text);

}  // namespace leat::render
