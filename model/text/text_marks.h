// Where the lines and characters of a text stand, in bytes, and pieces of it put in others' place.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "model/text/source_position.h"

namespace leat::model {

/// Lines and characters count from 1, as in diagnostics; characters are those of UTF-8. The text
/// must outlive the marks.
class TextMarks {
 public:
  explicit TextMarks(std::string_view text);

  [[nodiscard]] int line_count() const { return static_cast<int>(line_starts_.size()); }
  /// Byte at which a line begins; the text's end for lines behind the last.
  [[nodiscard]] std::size_t line_start(int line) const;
  /// A line with its line end.
  [[nodiscard]] std::string_view line(int number) const;
  /// Byte of a position; the text's end where it lies behind that.
  [[nodiscard]] std::size_t offset(SourcePosition position) const;

 private:
  std::string_view text_;
  std::vector<std::size_t> line_starts_;
};

/// Bytes to be taken out of a text and what comes in for them.
struct Replacement {
  std::size_t at = 0;
  std::size_t removed = 0;
  std::string put;
};

/// The text with all of them made; none may overlap. A whole line put in is never put behind a line
/// that lacks its end.
[[nodiscard]] std::string with_replacements(std::string_view text, std::vector<Replacement> made);

}  // namespace leat::model
