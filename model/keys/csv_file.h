// One CSV file that stands beside a farm file: its lines, the amounts in its cells, and the words
// for what is wrong in them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "model/keys/value_reader.h"
#include "model/text/csv_lines.h"

namespace leat::model {

/// One CSV file: its lines, and the words for what is wrong in them.
class CsvFile {
 public:
  CsvFile(const std::string& name, ProblemList& problems) : name_(name), problems_(problems) {}

  /// The lines of the text; nothing where its bytes are no text (reported). The lines view into
  /// `text`.
  [[nodiscard]] std::optional<std::vector<CsvLine>> lines(std::string_view text) const {
    return csv_lines(text, name_, problems_);
  }

  void report(std::string code, SourcePosition position, std::string text, std::string hint) const {
    problems_.add_in(name_, std::move(code), position, std::move(text), std::move(hint));
  }

  /// The quantity of a cell: a bare number where the header gives a `unit`, else with its own.
  template <class Value>
  [[nodiscard]] std::optional<Value> value(CsvCell cell,
                                           const std::string& unit,
                                           Parsed<Value> (*parse)(std::string_view),
                                           int line) const {
    const SourcePosition position{line, cell.column};
    if (!unit.empty()) {
      const Parsed<double> number = parse_number(cell.text);
      if (const auto* const problem = std::get_if<QuantityProblem>(&number)) {
        report(problem->code,
               position,
               problem->text,
               "the header gives the unit " + unit + ": write bare numbers");
        return std::nullopt;
      }
    }
    const Parsed<Value> parsed =
        parse(unit.empty() ? std::string(cell.text) : std::string(cell.text) + " " + unit);
    if (const auto* const problem = std::get_if<QuantityProblem>(&parsed)) {
      report(problem->code, position, problem->text, problem->hint);
      return std::nullopt;
    }
    return std::get<Value>(parsed);
  }

  /// The same within a range (code out-of-range).
  template <class Value>
  [[nodiscard]] std::optional<Value> value_within(CsvCell cell,
                                                  const std::string& unit,
                                                  Parsed<Value> (*parse)(std::string_view),
                                                  const Range<Value>& range,
                                                  int line) const {
    const std::optional<Value> found = value(cell, unit, parse, line);
    if (found && !range.holds(*found)) {
      report("out-of-range",
             SourcePosition{line, cell.column},
             "'" + std::string(cell.text) + "' is out of range",
             "it must be " + std::string(range.told));
      return std::nullopt;
    }
    return found;
  }

 private:
  const std::string& name_;
  ProblemList& problems_;
};

}  // namespace leat::model
