// CSV (RFC 4180 with LF line ends): lines of cells, and JSON's values as cells.
#pragma once

#include <string>
#include <vector>

#include "render/document/json_text.h"

namespace leat::render {

/// One line of cells, quoted where they hold a comma, a quote or a line break.
[[nodiscard]] std::string csv_line(const std::vector<std::string>& cells);

/// Decimals of figures whose column says nothing else.
inline constexpr int usual_csv_decimals = 6;

/// A value as a cell: text as it is, null empty, a figure with so many decimals; a list with "; "
/// between its texts, a blank between its numbers.
[[nodiscard]] std::string csv_cell(const Json& value, int decimals = usual_csv_decimals);

}  // namespace leat::render
