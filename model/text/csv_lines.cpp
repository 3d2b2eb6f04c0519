#include "model/text/csv_lines.h"

#include "model/text/text_position.h"
#include "model/text/text_scan.h"
#include "model/text/utf8.h"

namespace leat::model {
namespace {

CsvCell trimmed(CsvCell cell) {
  const std::size_t first = cell.text.find_first_not_of(" \t\"");
  if (first == std::string_view::npos) {
    return CsvCell{{}, cell.column};
  }
  const std::size_t last = cell.text.find_last_not_of(" \t\"");
  return CsvCell{cell.text.substr(first, last - first + 1), cell.column + static_cast<int>(first)};
}

std::vector<CsvCell> cells_of(std::string_view line) {
  std::vector<CsvCell> cells;
  std::size_t start = 0;
  int column = 1;
  while (true) {
    const std::size_t comma = line.find(',', start);
    const std::size_t end = comma == std::string_view::npos ? line.size() : comma;
    const std::string_view text = line.substr(start, end - start);
    cells.push_back(trimmed(CsvCell{text, column}));
    if (comma == std::string_view::npos) {
      return cells;
    }
    column += count_characters(text) + 1;
    start = comma + 1;
  }
}

}  // namespace

std::optional<std::string> unit_behind(std::string_view cell, std::string_view name) {
  if (!cell.starts_with(name)) {
    return std::nullopt;
  }
  cell.remove_prefix(name.size());
  const std::size_t first = cell.find_first_not_of(" _(");
  if (first == std::string_view::npos) {
    return std::string();
  }
  const std::size_t last = cell.find_last_not_of(" )");
  return std::string(cell.substr(first, last - first + 1));
}

std::optional<std::vector<CsvLine>> csv_lines(std::string_view text,
                                              const std::string& name,
                                              ProblemList& problems) {
  if (text.starts_with("\xEF\xBB\xBF")) {
    text.remove_prefix(3);
  }
  if (!check_bytes(text, name, problems)) {
    return std::nullopt;
  }
  std::vector<CsvLine> lines;
  const ColumnCounter counter(text);
  for (int number = 1; number <= counter.line_count(); ++number) {
    const std::string_view line = counter.line_text(number);
    const std::string_view content = trimmed(CsvCell{line, 1}).text;
    if (!content.empty() && content.front() != '#') {
      lines.push_back(CsvLine{number, cells_of(line)});
    }
  }
  return lines;
}

}  // namespace leat::model
