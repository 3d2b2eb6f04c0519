#include "model/keys/dated_record.h"

#include <fmt/format.h>

namespace leat::model {

std::optional<Date> RisingDates::take(const CsvLine& line, std::size_t cell, const CsvFile& file) {
  const std::string_view text = line.cells[cell].text;
  const std::optional<Date> date = parse_date(text);
  if (!date) {
    file.report("not-a-date",
                line.at(cell),
                fmt::format("'{}' is not a date", text),
                "write year-month-day, such as 2026-08-14");
    return std::nullopt;
  }
  if (before_ && !(*before_ < *date)) {
    file.report("not-rising",
                line.at(cell),
                fmt::format("{} does not come after {}", text, date_text(*before_)),
                "list the dates in order, each once");
    return std::nullopt;
  }
  before_ = date;
  return date;
}

void note_record(MonthTakes takes, std::string_view what, std::vector<std::string>& notes) {
  notes.push_back(
      takes == MonthTakes::Lowest
          ? fmt::format("{}: a month takes the lowest value measured in it in any year", what)
          : fmt::format("{}: a month takes the mean of what was measured in it", what));
}

}  // namespace leat::model
