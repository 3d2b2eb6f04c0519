#include "model/text/text_position.h"

#include <algorithm>

namespace leat::model {
namespace {

bool is_continuation(std::string_view text, std::size_t at) {
  return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
}

}  // namespace

std::size_t utf8_length(std::string_view text, std::size_t at) {
  const auto lead = static_cast<unsigned char>(text[at]);
  if (lead < 0x80) {
    return 1;
  }
  const auto second = [&](unsigned char low, unsigned char high) {
    return is_continuation(text, at + 1) && static_cast<unsigned char>(text[at + 1]) >= low &&
           static_cast<unsigned char>(text[at + 1]) <= high;
  };
  if (lead >= 0xC2 && lead <= 0xDF) {
    return is_continuation(text, at + 1) ? 2 : 0;
  }
  if (lead >= 0xE0 && lead <= 0xEF) {
    // No overlong forms, no surrogates (Unicode 15, table 3-7).
    const unsigned char low = lead == 0xE0 ? 0xA0 : 0x80;
    const unsigned char high = lead == 0xED ? 0x9F : 0xBF;
    return second(low, high) && is_continuation(text, at + 2) ? 3 : 0;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    const unsigned char low = lead == 0xF0 ? 0x90 : 0x80;
    const unsigned char high = lead == 0xF4 ? 0x8F : 0xBF;
    return second(low, high) && is_continuation(text, at + 2) && is_continuation(text, at + 3) ? 4
                                                                                               : 0;
  }
  return 0;
}

int count_characters(std::string_view text) {
  int count = 0;
  for (const char c : text) {
    count += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
  }
  return count;
}

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
