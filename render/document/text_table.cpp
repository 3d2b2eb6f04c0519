#include "render/document/text_table.h"

#include <algorithm>
#include <cstddef>

namespace leat::render {

namespace {

std::string spaces(int count) {
  return std::string(static_cast<std::size_t>(std::max(count, 0)), ' ');
}

std::string padded(const std::string& cell, int width, Align align) {
  const std::string filler = spaces(width - display_width(cell));
  return align == Align::Left ? cell + filler : filler + cell;
}

std::string line_of(const std::vector<std::string>& cells,
                    const std::vector<Heading>& columns,
                    const std::vector<int>& widths) {
  std::string line;
  for (std::size_t i = 0; i < cells.size() && i < columns.size(); ++i) {
    line += (i == 0 ? "" : "  ") + padded(cells[i], widths[i], columns[i].align);
  }
  line.erase(line.find_last_not_of(' ') + 1);
  return line + '\n';
}

}  // namespace

std::string table_text(const std::vector<Heading>& columns,
                       const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::vector<std::string>> shown;
  shown.emplace_back();
  for (const Heading& column : columns) {
    shown.front().push_back(column.heading);
  }
  shown.insert(shown.end(), rows.begin(), rows.end());
  std::vector<int> widths(columns.size(), 0);
  for (std::vector<std::string>& row : shown) {
    if (!row.empty()) {
      row.front() = cut_to_width(row.front(), widest_name);
    }
    for (std::size_t i = 0; i < row.size() && i < widths.size(); ++i) {
      widths[i] = std::max(widths[i], display_width(row[i]));
    }
  }
  std::string text;
  for (const std::vector<std::string>& row : shown) {
    text += line_of(row, columns, widths);
  }
  return text;
}

std::string table_below(const TextTable& table) {
  return table.rows.empty() ? "" : '\n' + table_text(table.columns, table.rows);
}

}  // namespace leat::render
