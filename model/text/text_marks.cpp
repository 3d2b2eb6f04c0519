#include "model/text/text_marks.h"

#include <algorithm>

#include "model/text/utf8.h"

namespace leat::model {

TextMarks::TextMarks(std::string_view text) : text_(text), line_starts_{0} {
  for (std::size_t i = 0; i + 1 < text.size(); ++i) {
    if (text[i] == '\n') {
      line_starts_.push_back(i + 1);
    }
  }
}

std::size_t TextMarks::line_start(int line) const {
  const auto index = static_cast<std::size_t>(std::max(1, line) - 1);
  return index < line_starts_.size() ? line_starts_[index] : text_.size();
}

std::string_view TextMarks::line(int number) const {
  return text_.substr(line_start(number), line_start(number + 1) - line_start(number));
}

std::size_t TextMarks::offset(SourcePosition position) const {
  std::size_t at = line_start(position.line);
  for (int column = 1; column < position.column && at < text_.size(); ++column) {
    at += std::max<std::size_t>(1, utf8_length(text_, at));
  }
  return at;
}

std::string with_replacements(std::string_view text, std::vector<Replacement> made) {
  std::stable_sort(made.begin(), made.end(), [](const Replacement& a, const Replacement& b) {
    return a.at < b.at;
  });
  std::string result;
  std::size_t at = 0;
  for (const Replacement& one : made) {
    result += text.substr(at, one.at - at);
    if (!result.empty() && one.put.ends_with('\n') && result.back() != '\n') {
      result += '\n';
    }
    result += one.put;
    at = one.at + one.removed;
  }
  return result.append(text.substr(at));
}

}  // namespace leat::model
