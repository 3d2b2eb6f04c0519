#include "model/text/text_position.h"

#include <algorithm>

#include "model/text/utf8.h"

namespace leat::model {

ColumnCounter::ColumnCounter(std::string_view text) : text_(text) {
  line_starts_.push_back(0);
  for (std::size_t at = text.find('\n'); at != std::string_view::npos;
       at = text.find('\n', at + 1)) {
    line_starts_.push_back(at + 1);
  }
}

SourcePosition ColumnCounter::position(int line, int byte_column) {
  if (line != line_ || byte_column < byte_column_) {
    line_ = line;
    byte_column_ = 0;
    characters_ = 0;
  }
  const std::string_view whole = line_text(line + 1);
  const auto from = static_cast<std::size_t>(byte_column_);
  const auto until = std::min(static_cast<std::size_t>(byte_column), whole.size());
  if (from < until) {
    characters_ += count_characters(whole.substr(from, until - from));
    byte_column_ = static_cast<int>(until);
  }
  return SourcePosition{line + 1, characters_ + 1};
}

std::string_view ColumnCounter::line_text(int line) const {
  const auto index = static_cast<std::size_t>(line) - 1;
  if (line < 1 || index >= line_starts_.size()) {
    return {};
  }
  const std::size_t start = line_starts_[index];
  const std::size_t end =
      index + 1 < line_starts_.size() ? line_starts_[index + 1] - 1 : text_.size();
  std::string_view whole = text_.substr(start, end - start);
  if (whole.ends_with('\r')) {
    whole.remove_suffix(1);
  }
  return whole;
}

}  // namespace leat::model
