// Columns of text for a fixed-width screen.
#pragma once

#include <string>
#include <vector>

#include "render/words/running_text.h"

namespace leat::render {

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
