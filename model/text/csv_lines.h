// Lines and cells of the CSV files that stand beside a farm file.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/text/problem_list.h"

namespace leat::model {

/// One cell without the blanks and quotes around it, and the column [characters, from 1] where it
/// starts.
struct CsvCell {
  std::string_view text;
  int column = 1;
};

/// A line that is neither empty nor a remark.
struct CsvLine {
  int number = 0;
  std::vector<CsvCell> cells;

  [[nodiscard]] SourcePosition at(std::size_t cell) const {
    return SourcePosition{number, cells[cell].column};
  }
};

/// The unit behind a column's name: "ft" of "distance ft", "distance_ft" and "distance (ft)", empty
/// where there is none; nothing where the cell does not start with the name.
[[nodiscard]] std::optional<std::string> unit_behind(std::string_view cell, std::string_view name);

/// The lines of a CSV file that are neither empty nor remarks; nothing where its bytes are no text
/// (reported, with `name` as the file). The lines view into `text`.
[[nodiscard]] std::optional<std::vector<CsvLine>> csv_lines(std::string_view text,
                                                            const std::string& name,
                                                            ProblemList& problems);

}  // namespace leat::model
