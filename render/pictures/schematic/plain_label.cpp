#include "render/pictures/schematic/plain_label.h"

#include <algorithm>
#include <utility>

#include "model/text/utf8.h"

namespace leat::render {
namespace {

/// Byte length of the first `count` characters of printable text.
std::size_t bytes_of(std::string_view text, std::size_t count) {
  std::size_t index = 0;
  for (std::size_t i = 0; i < count && index < text.size(); ++i) {
    index += model::character_at(text, index).bytes;
  }
  return index;
}

std::string with_plain_spaces(std::string text) {
  for (std::size_t at = text.find(joined_space); at != std::string::npos;
       at = text.find(joined_space, at)) {
    text.replace(at, joined_space.size(), " ");
  }
  return text;
}

/// The longest beginning of a word too long for a line: up to a joined space, else cut anywhere.
std::size_t bytes_that_fit(std::string_view word, std::size_t width) {
  const std::size_t cut = bytes_of(word, width);
  const std::size_t space = word.rfind(joined_space, cut);
  const bool is_within = space != std::string_view::npos && space > 0;
  return is_within ? space : cut;
}

std::vector<std::string> pieces_of_word(std::string_view word, std::size_t width) {
  std::vector<std::string> pieces;
  while (characters_in(word) > width) {
    const std::size_t cut = bytes_that_fit(word, width);
    pieces.emplace_back(word.substr(0, cut));
    word.remove_prefix(cut);
    if (word.substr(0, joined_space.size()) == joined_space) {
      word.remove_prefix(joined_space.size());
    }
  }
  if (!word.empty()) {
    pieces.emplace_back(word);
  }
  return pieces;
}

std::vector<std::string> words_of(std::string_view text, std::size_t width) {
  std::vector<std::string> words;
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find(' ', start), text.size());
    if (end > start) {
      for (std::string& piece : pieces_of_word(text.substr(start, end - start), width)) {
        words.push_back(std::move(piece));
      }
    }
    start = end + 1;
  }
  return words;
}

}  // namespace

std::size_t characters_in(std::string_view text) {
  return static_cast<std::size_t>(model::count_characters(text));
}

std::string without_commands(std::string_view text) {
  std::string result;
  for (const char byte : text) {
    result += byte;
    if (byte == '\\') {
      result += byte;
    }
  }
  return result;
}

std::vector<std::string> broken_into_lines(std::string_view text, std::size_t width) {
  const std::string clean = printable(text);
  std::vector<std::string> lines;
  for (const std::string& word : words_of(clean, width)) {
    const bool fits =
        !lines.empty() && characters_in(lines.back()) + 1 + characters_in(word) <= width;
    if (fits) {
      lines.back() += ' ';
      lines.back() += word;
    } else {
      lines.push_back(word);
    }
  }
  return lines;
}

std::string plain_label(const std::vector<std::string>& lines, std::size_t width, LineEnd end) {
  const std::string_view line_end = end == LineEnd::Left ? "\\l" : "\\n";
  std::string label;
  for (const std::string& line : lines) {
    for (const std::string& piece : broken_into_lines(line, width)) {
      label += without_commands(with_plain_spaces(piece));
      label += line_end;
    }
  }
  return label;
}

std::string one_line(std::string_view text) {
  return without_commands(with_plain_spaces(printable(text)));
}

}  // namespace leat::render
