#include "render/pictures/schematic/plain_label.h"

#include <algorithm>
#include <utility>

namespace leat::render {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD in UTF-8

unsigned char byte_at(std::string_view text, std::size_t index) {
  return static_cast<unsigned char>(text[index]);
}

/// Bytes of the well-formed character that starts at `index`, 0 where there is none (Unicode
/// Standard, table 3-7: no overlong forms, no surrogates, nothing above U+10FFFF).
std::size_t character_length(std::string_view text, std::size_t index) {
  const unsigned char first = byte_at(text, index);
  if (first < 0x80) {
    return 1;
  }
  const std::size_t length = first >= 0xF0 ? 4 : (first >= 0xE0 ? 3 : 2);
  if (first < 0xC2 || first > 0xF4 || index + length > text.size()) {
    return 0;
  }
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte_at(text, index + i) & 0xC0) != 0x80) {
      return 0;
    }
  }
  const unsigned char second = byte_at(text, index + 1);
  const bool is_overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool is_outside = (first == 0xED && second > 0x9F) || (first == 0xF4 && second > 0x8F);
  return is_overlong || is_outside ? 0 : length;
}

/// Whether XML 1.0 has no place for the character, or it would steer the output.
bool is_control(std::string_view character) {
  const unsigned char first = byte_at(character, 0);
  const bool is_c1 = first == 0xC2 && byte_at(character, 1) < 0xA0;
  const bool is_no_character = character == "\xEF\xBF\xBE" || character == "\xEF\xBF\xBF";
  return first < 0x20 || first == 0x7F || is_c1 || is_no_character;
}

/// Byte length of the first `count` characters of printable text.
std::size_t bytes_of(std::string_view text, std::size_t count) {
  std::size_t index = 0;
  for (std::size_t i = 0; i < count && index < text.size(); ++i) {
    index += character_length(text, index);
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
  while (character_count(word) > width) {
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

std::size_t character_count(std::string_view text) {
  std::size_t count = 0;
  for (const char byte : text) {
    count += (static_cast<unsigned char>(byte) & 0xC0) != 0x80 ? 1U : 0U;
  }
  return count;
}

std::string printable(std::string_view text) {
  std::string result;
  std::size_t index = 0;
  while (index < text.size()) {
    const std::size_t length = character_length(text, index);
    if (length == 0) {
      result += replacement;
      ++index;
      continue;
    }
    const std::string_view character = text.substr(index, length);
    if (is_control(character)) {
      result += ' ';
    } else {
      result += character;
    }
    index += length;
  }
  return result;
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
        !lines.empty() && character_count(lines.back()) + 1 + character_count(word) <= width;
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
