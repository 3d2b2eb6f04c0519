#include "model/path_csv.h"

#include <array>
#include <utility>

#include <fmt/format.h>

#include "model/quantity_text.h"
#include "model/text_scan.h"

namespace leat::model {
namespace {

struct Cell {
  std::string_view text;
  int column = 1;
};

/// The units a header gives to the two columns; empty where the cells carry their own.
struct Header {
  std::string distance_unit;
  std::string elevation_unit;
};

Cell trimmed(Cell cell) {
  const std::size_t first = cell.text.find_first_not_of(" \t\"");
  if (first == std::string_view::npos) {
    return Cell{{}, cell.column};
  }
  const std::size_t last = cell.text.find_last_not_of(" \t\"");
  return Cell{cell.text.substr(first, last - first + 1), cell.column + static_cast<int>(first)};
}

std::vector<Cell> cells_of(std::string_view line) {
  std::vector<Cell> cells;
  std::size_t start = 0;
  int column = 1;
  while (true) {
    const std::size_t comma = line.find(',', start);
    const std::size_t end = comma == std::string_view::npos ? line.size() : comma;
    const std::string_view cell = line.substr(start, end - start);
    cells.push_back(trimmed(Cell{cell, column}));
    if (comma == std::string_view::npos) {
      return cells;
    }
    column += count_characters(cell) + 1;
    start = comma + 1;
  }
}

/// The unit behind a column's name: "ft" of "distance ft", "distance_ft" and "distance (ft)".
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

std::optional<Header> header_of(const std::vector<Cell>& cells) {
  const auto distance = unit_behind(cells[0].text, "distance");
  const auto elevation = unit_behind(cells[1].text, "elevation");
  if (!distance || !elevation) {
    return std::nullopt;
  }
  return Header{*distance, *elevation};
}

class PathCsv {
 public:
  PathCsv(const std::string& file, ProblemList& problems) : file_(file), problems_(problems) {}

  void take_line(std::string_view line, int number) {
    const std::string_view content = trimmed(Cell{line, 1}).text;
    if (content.empty() || content.front() == '#') {
      return;
    }
    const std::vector<Cell> cells = cells_of(line);
    if (cells.size() != 2) {
      report("csv-columns",
             {number, 1},
             fmt::format("the line has {} columns where two are wanted", cells.size()),
             "write distance, elevation");
      return;
    }
    if (points_.empty() && !header_) {
      header_ = header_of(cells);
      if (header_) {
        return;
      }
    }
    const Header units = header_.value_or(Header{});
    const auto distance = value(cells[0], units.distance_unit, parse_length, number);
    const auto elevation = value(cells[1], units.elevation_unit, parse_elevation, number);
    PathPoint point;
    point.position = SourcePosition{number, cells[0].column};
    if (distance && elevation) {
      point.distance = *distance;
      point.elevation = *elevation;
    }
    points_.push_back(point);
  }

  [[nodiscard]] std::vector<PathPoint> take_points() { return std::move(points_); }

 private:
  void report(std::string code, SourcePosition position, std::string text, std::string hint) {
    problems_.add_in(file_, std::move(code), position, std::move(text), std::move(hint));
  }

  template <class Value>
  std::optional<Value> value(Cell cell,
                             const std::string& unit,
                             Parsed<Value> (*parse)(std::string_view),
                             int line) {
    const SourcePosition position{line, cell.column};
    if (!unit.empty()) {
      const Parsed<double> number = parse_number(cell.text);
      if (const auto* const problem = std::get_if<QuantityProblem>(&number)) {
        report(problem->code,
               position,
               problem->text,
               fmt::format("the header gives the unit {}: write bare numbers", unit));
        return std::nullopt;
      }
    }
    const Parsed<Value> parsed =
        parse(unit.empty() ? std::string(cell.text) : fmt::format("{} {}", cell.text, unit));
    if (const auto* const problem = std::get_if<QuantityProblem>(&parsed)) {
      report(problem->code, position, problem->text, problem->hint);
      return std::nullopt;
    }
    return std::get<Value>(parsed);
  }

  const std::string& file_;
  ProblemList& problems_;
  std::optional<Header> header_;
  std::vector<PathPoint> points_;
};

}  // namespace

std::optional<std::vector<PathPoint>> read_path_csv(std::string_view text,
                                                    const std::string& csv_file,
                                                    ProblemList& problems) {
  const std::size_t before = problems.count();
  if (text.starts_with("\xEF\xBB\xBF")) {
    text.remove_prefix(3);
  }
  if (!check_bytes(text, csv_file, problems)) {
    return std::nullopt;
  }
  PathCsv csv(csv_file, problems);
  const ColumnCounter lines(text);
  for (int line = 1; line <= lines.line_count(); ++line) {
    csv.take_line(lines.line_text(line), line);
  }
  if (problems.count() != before) {
    return std::nullopt;
  }
  return csv.take_points();
}

}  // namespace leat::model
