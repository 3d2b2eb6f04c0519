// Characters, lines and columns of a UTF-8 text.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "model/text/source_position.h"

namespace leat::model {

/// Turns lines and byte columns into what people count. Asked for rising columns of one line it
/// takes time in proportion to the line's length as a whole.
class ColumnCounter {
 public:
  explicit ColumnCounter(std::string_view text);
  /// The position of a byte; line and column as parsers count them, from 0.
  [[nodiscard]] SourcePosition position(int line, int byte_column);
  /// A line by its number from 1, without its end; empty beyond the last.
  [[nodiscard]] std::string_view line_text(int line) const;
  [[nodiscard]] int line_count() const { return static_cast<int>(line_starts_.size()); }

 private:
  std::string_view text_;
  std::vector<std::size_t> line_starts_;
  int line_ = -1;
  int byte_column_ = 0;
  int characters_ = 0;
};

}  // namespace leat::model
