// Values measured on dates: a CSV file of two columns, and the month map that follows from it.
#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "model/farm/date.h"
#include "model/keys/beside_file.h"
#include "model/keys/csv_file.h"
#include "model/keys/month_map_reader.h"

namespace leat::model {

/// The dates of a CSV file's lines: each later than the one before (codes not-a-date, not-rising).
class RisingDates {
 public:
  [[nodiscard]] std::optional<Date> take(const CsvLine& line,
                                         std::size_t cell,
                                         const CsvFile& file);

 private:
  std::optional<Date> before_;
};

/// What a record is of, as its file calls it, how its values are written, and which are sane.
template <class Value>
struct RecordKind {
  std::string_view column;   // "flow"
  std::string_view example;  // "2026-08-14, 3 L/min"
  Parsed<Value> (*parse)(std::string_view);
  Range<Value> range;
};

/// Every flow a farm may have.
inline constexpr RecordKind<Flow> flow_record{
    "flow", "2026-08-14, 3 L/min", parse_flow, {Flow(), Flow::from_si(1e6), "", true}};
inline constexpr RecordKind<Elevation> level_record{
    "level", "2026-08-14, 31.2 m", parse_elevation, level_range};

/// Reads the text of such a file; the unit of the values stands in a header ("date, flow L/min") or
/// in every cell. Problems name `csv_file` and its line.
template <class Value>
[[nodiscard]] std::optional<std::vector<Dated<Value>>> read_record_csv(
    std::string_view text,
    const std::string& csv_file,
    const RecordKind<Value>& kind,
    ProblemList& problems) {
  const std::size_t before = problems.count();
  const CsvFile file(csv_file, problems);
  const auto lines = file.lines(text);
  if (!lines) {
    return std::nullopt;
  }
  std::vector<Dated<Value>> record;
  std::string unit;
  RisingDates dates;
  for (const CsvLine& line : *lines) {
    if (line.cells.size() != 2) {
      file.report(
          "csv-columns",
          {line.number, 1},
          "the line has " + std::to_string(line.cells.size()) + " columns where two are wanted",
          "write date, " + std::string(kind.column) + ", such as " + std::string(kind.example));
      continue;
    }
    if (&line == &lines->front() && line.cells[0].text == "date") {
      const auto header_unit = unit_behind(line.cells[1].text, kind.column);
      unit = header_unit.value_or("");
      if (!header_unit ||
          !(unit.empty() || std::holds_alternative<Value>(kind.parse("1 " + unit)))) {
        file.report("csv-columns",
                    line.at(1),
                    "'" + std::string(line.cells[1].text) + "' is no column of " +
                        std::string(kind.column) + " with its unit",
                    "write date, " + std::string(kind.column) + ", and lines such as " +
                        std::string(kind.example));
        return std::nullopt;  // told once, not on every line
      }
      continue;
    }
    const auto on = dates.take(line, 0, file);
    const auto value = file.value_within(line.cells[1], unit, kind.parse, kind.range, line.number);
    if (on && value) {
      record.push_back(Dated<Value>{*on, *value});
    }
  }
  if (problems.count() == before && record.empty()) {
    file.report("empty-file",
                {1, 1},
                "the file holds no date",
                "write lines such as " + std::string(kind.example));
  }
  return problems.count() == before ? std::optional(std::move(record)) : std::nullopt;
}

/// How the values of one month, in any year, make one.
enum class MonthTakes { Lowest, Mean };

/// Says how a record became a month map.
void note_record(MonthTakes takes, std::string_view what, std::vector<std::string>& notes);

/// The month map of a record of at least one value; months without one are filled by `rule`.
template <class Value>
[[nodiscard]] MonthSeries<Value> months_of_record(const std::vector<Dated<Value>>& record,
                                                  MonthTakes takes,
                                                  GapRule rule) {
  std::array<double, 12> sums{};
  std::array<int, 12> counts{};
  std::array<std::optional<Value>, 12> given{};
  for (const Dated<Value>& measured : record) {
    const auto month = static_cast<std::size_t>(month_of(measured.on));
    sums[month] += measured.value.in_si();
    ++counts[month];
    given[month] = given[month] ? std::min(*given[month], measured.value) : measured.value;
  }
  for (std::size_t month = 0; month < given.size(); ++month) {
    if (takes == MonthTakes::Mean && counts[month] > 0) {
      given[month] = Value::from_si(sums[month] / counts[month]);
    }
  }
  return fill_months(given, rule);
}

/// One value, a month map, or the name of a CSV file of measured dates, which goes to `record`.
template <class Value>
[[nodiscard]] std::optional<MonthSeries<Value>> read_months_or_record(
    const YamlNode& node,
    std::string_view what,
    const RecordKind<Value>& kind,
    MonthTakes takes,
    GapRule rule,
    LoadContext& context,
    std::vector<Dated<Value>>& record) {
  if (!names_csv(node)) {
    const auto read_one = [&](const YamlNode& value, const std::string& value_what) {
      return read_within(value, value_what, kind.parse, kind.range, context.problems);
    };
    return read_months_with<Value>(node, what, read_one, rule, context);
  }
  const auto file = read_beside(node, what, context);
  auto found = file ? read_record_csv(file->text, file->name, kind, context.problems)
                    : std::optional<std::vector<Dated<Value>>>();
  if (!found) {
    return std::nullopt;
  }
  record = std::move(*found);
  MonthSeries<Value> series = months_of_record(record, takes, rule);
  note_record(takes, what, context.notes);
  note_assumed_months(series.assumed, rule, what, context.notes);
  return series;
}

}  // namespace leat::model
