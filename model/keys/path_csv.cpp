#include "model/keys/path_csv.h"

#include <utility>

#include <fmt/format.h>

#include "model/keys/csv_file.h"

namespace leat::model {
namespace {

/// The units a header gives to the two columns; empty where the cells carry their own.
struct Header {
  std::string distance_unit;
  std::string elevation_unit;
};

std::optional<Header> header_of(const std::vector<CsvCell>& cells) {
  const auto distance = unit_behind(cells[0].text, "distance");
  const auto elevation = unit_behind(cells[1].text, "elevation");
  if (!distance || !elevation) {
    return std::nullopt;
  }
  return Header{*distance, *elevation};
}

class PathCsv {
 public:
  PathCsv(const std::string& name, ProblemList& problems) : file_(name, problems) {}

  void take_line(const CsvLine& line) {
    const std::vector<CsvCell>& cells = line.cells;
    if (cells.size() != 2) {
      file_.report("csv-columns",
                   {line.number, 1},
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
    const auto distance = file_.value(cells[0], units.distance_unit, parse_length, line.number);
    const auto elevation =
        file_.value(cells[1], units.elevation_unit, parse_elevation, line.number);
    PathPoint point;
    point.position = line.at(0);
    if (distance && elevation) {
      point.distance = *distance;
      point.elevation = *elevation;
    }
    points_.push_back(point);
  }

  [[nodiscard]] const CsvFile& file() const { return file_; }
  [[nodiscard]] std::vector<PathPoint> take_points() { return std::move(points_); }

 private:
  CsvFile file_;
  std::optional<Header> header_;
  std::vector<PathPoint> points_;
};

}  // namespace

std::optional<std::vector<PathPoint>> read_path_csv(std::string_view text,
                                                    const std::string& csv_file,
                                                    ProblemList& problems) {
  const std::size_t before = problems.count();
  PathCsv csv(csv_file, problems);
  const auto lines = csv.file().lines(text);
  if (!lines) {
    return std::nullopt;
  }
  for (const CsvLine& line : *lines) {
    csv.take_line(line);
  }
  if (problems.count() != before) {
    return std::nullopt;
  }
  return csv.take_points();
}

}  // namespace leat::model
