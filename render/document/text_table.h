// Columns of text for a fixed-width screen.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace leat::render {

/// Columns the text takes on a terminal: two for wide (East Asian, emoji) characters, none for
/// marks that combine with the one before.
[[nodiscard]] int display_width(std::string_view text);

/// The text as it may be printed in one line: control characters replaced by '?', and cut to
/// `width` columns with an ellipsis where it is longer.
[[nodiscard]] std::string cut_to_width(std::string_view text, int width);

/// The text in lines of at most `width` columns, broken at spaces, each line but the first
/// beginning with `indent` spaces. A word longer than the line stands alone. Ends in a newline.
[[nodiscard]] std::string wrapped(std::string_view text, int width, int indent);

enum class Align { Left, Right };

struct Heading {
  std::string heading;
  Align align = Align::Left;
};

/// Widest a cell of the first column (a name) is shown [columns].
inline constexpr int widest_name = 26;

/// A table with a heading line, two spaces between columns, no space at line ends. Cells missing at
/// the end of a row are empty. The first column is cut to `widest_name`.
[[nodiscard]] std::string table_text(const std::vector<Heading>& columns,
                                     const std::vector<std::vector<std::string>>& rows);

/// A table before it is laid out, for a screen or a page. The first heading says what the table is
/// of; on a page it is the caption.
struct TextTable {
  std::vector<Heading> columns;
  std::vector<std::vector<std::string>> rows;
};

/// Below an empty line; nothing where the table has no rows.
[[nodiscard]] std::string table_below(const TextTable& table);

}  // namespace leat::render
