#include "model/keys/weather_csv.h"

#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/keys/csv_file.h"
#include "model/keys/dated_record.h"

namespace leat::model {
namespace {

constexpr std::string_view date_name = "date";
constexpr std::string_view header_example = "write a header such as date, rain mm, evaporation mm";

/// One cell, with the unit its column's header gives.
struct CellAt {
  const CsvFile& file;
  const CsvLine& line;
  std::size_t cell;
  const std::string& unit;

  template <class Value>
  [[nodiscard]] std::optional<Value> read(Parsed<Value> (*parse)(std::string_view),
                                          const Range<Value>& range) const {
    return file.value_within(line.cells[cell], unit, parse, range, line.number);
  }
};

/// A column the weather may have: reads one cell and stores it, or reports.
struct Column {
  std::string_view name;
  std::string_view usual;  // as headers write it
  void (*read)(const CellAt& cell, WeatherDay& day);
};

constexpr std::array<Column, 7> known_columns = {{
    {"rain",
     "rain mm or rain in",
     [](const CellAt& cell, WeatherDay& day) {
       day.rain = cell.read(parse_depth, day_rain_range);
     }},
    {"evaporation",
     "evaporation mm or evaporation in",
     [](const CellAt& cell, WeatherDay& day) {
       day.evaporation = cell.read(parse_depth, day_evaporation_range);
     }},
    {"tmin",
     "tmin C or tmin F",
     [](const CellAt& cell, WeatherDay& day) {
       day.tmin = cell.read(parse_temperature, air_range);
     }},
    {"tmax",
     "tmax C or tmax F",
     [](const CellAt& cell, WeatherDay& day) {
       day.tmax = cell.read(parse_temperature, air_range);
     }},
    {"wind",
     "wind m/s, wind km/h or wind mph",
     [](const CellAt& cell, WeatherDay& day) {
       if (const auto wind = cell.read(parse_speed, wind_range)) {
         day.wind_m_s = in_metres_per_second(*wind);
       }
     }},
    {"humidity",
     "humidity %",
     [](const CellAt& cell, WeatherDay& day) {
       if (const auto share = cell.read(parse_share, humidity_range)) {
         day.humidity_percent = *share * 100.0;
       }
     }},
    {"sunshine",
     "sunshine h",
     [](const CellAt& cell, WeatherDay& day) {
       if (const auto sunshine = cell.read(parse_duration, sunshine_range)) {
         day.sunshine_h = in_hours(*sunshine);
       }
     }},
}};

/// One column of this file; without a reader it is the date.
struct FileColumn {
  const Column* known = nullptr;
  std::string unit;
};

class WeatherCsv {
 public:
  explicit WeatherCsv(const CsvFile& file) : file_(file) {}

  /// The first line. Returns whether the rest can be read by it.
  [[nodiscard]] bool take_header(const CsvLine& line) {
    bool sound = true;
    for (std::size_t i = 0; i < line.cells.size(); ++i) {
      sound = take_column(line, i) && sound;
    }
    if (sound && table_.columns.count(date_name) == 0) {
      file_.report("csv-columns",
                   {line.number, 1},
                   "the first line names no column 'date'",
                   std::string(header_example));
      return false;
    }
    return sound;
  }

  void take_day(const CsvLine& line) {
    if (line.cells.size() != columns_.size()) {
      file_.report("csv-columns",
                   {line.number, 1},
                   fmt::format("the line has {} columns where the header has {}",
                               line.cells.size(),
                               columns_.size()),
                   "leave the cell of what was not measured empty, but keep its comma");
      return;
    }
    WeatherDay day;
    std::size_t tmin_cell = 0;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      if (columns_[i].known == nullptr) {
        const auto date = dates_.take(line, i, file_);
        day.on = date.value_or(Date{});
      } else if (!line.cells[i].text.empty()) {
        columns_[i].known->read(CellAt{file_, line, i, columns_[i].unit}, day);
        tmin_cell = columns_[i].known->name == "tmin" ? i : tmin_cell;
      }
    }
    if (day.tmin && day.tmax && *day.tmax < *day.tmin) {
      file_.report("contradictory",
                   line.at(tmin_cell),
                   "tmin is above tmax",
                   "tmin is the night's lowest, tmax the day's highest");
    }
    table_.days.push_back(day);
  }

  [[nodiscard]] WeatherTable take_table() { return std::move(table_); }

 private:
  [[nodiscard]] bool take_column(const CsvLine& line, std::size_t cell) {
    const std::string_view text = line.cells[cell].text;
    FileColumn column;
    std::string_view name = text == date_name ? date_name : std::string_view();
    for (const Column& known : known_columns) {
      if (auto unit = unit_behind(text, known.name)) {
        column.known = &known;
        column.unit = std::move(*unit);
        name = known.name;
      }
    }
    if (name.empty()) {
      std::vector<std::string_view> names = {date_name};
      for (const Column& known : known_columns) {
        names.push_back(known.name);
      }
      file_.report("csv-columns",
                   line.at(cell),
                   fmt::format("'{}' is no column of the weather", text),
                   fmt::format("known are: {}, with a unit behind all but the date",
                               fmt::join(names, ", ")));
      return false;
    }
    if (!table_.columns.insert(name).second) {
      file_.report("csv-columns",
                   line.at(cell),
                   fmt::format("the column '{}' stands there twice", name),
                   "keep one");
      return false;
    }
    columns_.push_back(column);
    return column.unit.empty() || unit_is_known(columns_.back(), line, cell);
  }

  /// Tries the unit on a 1, so that a wrong one is told once and not on every line.
  [[nodiscard]] bool unit_is_known(const FileColumn& column,
                                   const CsvLine& line,
                                   std::size_t cell) const {
    ProblemList trial_problems("");
    const std::string trial_name;
    const CsvFile trial(trial_name, trial_problems);
    const CsvLine one{line.number, {CsvCell{"1", line.cells[cell].column}}};
    WeatherDay ignored;
    column.known->read(CellAt{trial, one, 0, column.unit}, ignored);
    for (const Diagnostic& problem : trial_problems.sorted()) {
      if (problem.code != "out-of-range") {  // 1 m of evaporation a day is the cells' affair
        file_.report(problem.code,
                     line.at(cell),
                     fmt::format("'{}': the unit does not fit the column", line.cells[cell].text),
                     fmt::format("write {}", column.known->usual));
        return false;
      }
    }
    return true;
  }

  const CsvFile& file_;
  WeatherTable table_;
  std::vector<FileColumn> columns_;
  RisingDates dates_;
};

}  // namespace

Parsed<Length> parse_depth(std::string_view text) {
  Parsed<Length> parsed = parse_length(text);
  if (auto* const problem = std::get_if<QuantityProblem>(&parsed)) {
    if (problem->code == "missing-unit") {
      problem->hint = fmt::format("write {} mm or {} in", text, text);
    }
  }
  return parsed;
}

std::optional<WeatherTable> read_weather_csv(std::string_view text,
                                             const std::string& csv_file,
                                             ProblemList& problems) {
  const std::size_t before = problems.count();
  const CsvFile file(csv_file, problems);
  const auto lines = file.lines(text);
  if (!lines) {
    return std::nullopt;
  }
  if (lines->size() < 2) {
    file.report("empty-file",
                {1, 1},
                "the file holds no day of weather",
                std::string(header_example) + ", and a line for each day");
    return std::nullopt;
  }
  WeatherCsv csv(file);
  if (!csv.take_header(lines->front())) {
    return std::nullopt;
  }
  for (std::size_t i = 1; i < lines->size(); ++i) {
    csv.take_day((*lines)[i]);
  }
  return problems.count() == before ? std::optional(csv.take_table()) : std::nullopt;
}

}  // namespace leat::model
