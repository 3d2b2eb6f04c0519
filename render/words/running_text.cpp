#include "render/words/running_text.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>

#include "model/text/utf8.h"

namespace leat::render {

namespace {

struct Range {
  std::uint32_t first;
  std::uint32_t last;
};

// Unicode blocks of marks without a width of their own.
constexpr std::array<Range, 6> zero_width = {{{0x0300, 0x036F},
                                              {0x0591, 0x05BD},
                                              {0x200B, 0x200F},
                                              {0x20D0, 0x20FF},
                                              {0xFE00, 0xFE0F},
                                              {0xFE20, 0xFE2F}}};
// Unicode Standard Annex 11, classes W and F, by block.
constexpr std::array<Range, 9> double_width = {{{0x1100, 0x115F},
                                                {0x2E80, 0x303E},
                                                {0x3041, 0xA4CF},
                                                {0xAC00, 0xD7A3},
                                                {0xF900, 0xFAFF},
                                                {0xFE30, 0xFE6F},
                                                {0xFF00, 0xFF60},
                                                {0x1F300, 0x1FAFF},
                                                {0x20000, 0x3FFFD}}};

template <std::size_t count>
bool is_in(const std::array<Range, count>& ranges, std::uint32_t code) {
  return std::any_of(ranges.begin(), ranges.end(), [code](const Range& range) {
    return code >= range.first && code <= range.last;
  });
}

int width_of(std::uint32_t code) {
  if (is_in(zero_width, code)) {
    return 0;
  }
  return is_in(double_width, code) ? 2 : 1;
}

/// Whether XML 1.0 has no place for the character.
bool is_no_character(std::uint32_t code) {
  return code == 0xFFFE || code == 0xFFFF;
}

}  // namespace

int display_width(std::string_view text) {
  int width = 0;
  for (std::size_t at = 0; at < text.size();) {
    const model::Character character = model::character_at(text, at);
    width += width_of(character.code);
    at += character.bytes;
  }
  return width;
}

std::string cut_to_width(std::string_view text, int width) {
  const bool is_too_long = display_width(text) > width;
  const int room = is_too_long ? width - 1 : width;
  std::string shown;
  int used = 0;
  for (std::size_t at = 0; at < text.size();) {
    const model::Character character = model::character_at(text, at);
    used += width_of(character.code);
    if (used > room) {
      break;
    }
    shown += model::is_control(character.code) ? "?" : text.substr(at, character.bytes);
    at += character.bytes;
  }
  return is_too_long ? shown + "\u2026" : shown;
}

std::string wrapped(std::string_view text, int width, int indent) {
  std::string lines;
  int used = 0;
  bool is_first = true;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    const int needed = display_width(word);
    if (!is_first && used > indent && used + 1 + needed > width) {
      lines += '\n';
      lines.append(static_cast<std::size_t>(std::max(indent, 0)), ' ');
      used = indent;
    } else if (!is_first) {
      lines += ' ';
      ++used;
    }
    lines += word;
    used += needed;
    is_first = false;
  }
  return lines + '\n';
}

std::string printable(std::string_view text) {
  constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD
  std::string result;
  for (std::size_t at = 0; at < text.size();) {
    const model::Character character = model::character_at(text, at);
    if (!character.is_valid) {
      result += replacement;
    } else if (model::is_control(character.code) || is_no_character(character.code)) {
      result += ' ';
    } else {
      result += text.substr(at, character.bytes);
    }
    at += character.bytes;
  }
  return result;
}

}  // namespace leat::render
