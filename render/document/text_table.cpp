#include "render/document/text_table.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>

namespace leat::render {

namespace {

/// One character and the bytes it stands in.
struct Character {
  std::uint32_t code = 0;
  std::size_t bytes = 1;
};

/// The character at the front of a non-empty text; a stray byte is a character of its own.
Character first_character(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text.front());
  std::size_t length = 1;
  std::uint32_t code = lead;
  if (lead >= 0xF0 && lead < 0xF8) {
    length = 4;
    code = lead & 0x07U;
  } else if (lead >= 0xE0 && lead < 0xF0) {
    length = 3;
    code = lead & 0x0FU;
  } else if (lead >= 0xC0 && lead < 0xE0) {
    length = 2;
    code = lead & 0x1FU;
  }
  if (length > text.size()) {
    return {lead, 1};
  }
  for (std::size_t i = 1; i < length; ++i) {
    const auto next = static_cast<unsigned char>(text[i]);
    if ((next & 0xC0U) != 0x80U) {
      return {lead, 1};
    }
    code = (code << 6U) | (next & 0x3FU);
  }
  return {code, length};
}

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

bool is_control(std::uint32_t code) {
  return code < 0x20 || (code >= 0x7F && code < 0xA0);
}

std::string spaces(int count) {
  return std::string(static_cast<std::size_t>(std::max(count, 0)), ' ');
}

std::string padded(const std::string& cell, int width, Align align) {
  const std::string filler = spaces(width - display_width(cell));
  return align == Align::Left ? cell + filler : filler + cell;
}

std::string line_of(const std::vector<std::string>& cells,
                    const std::vector<Heading>& columns,
                    const std::vector<int>& widths) {
  std::string line;
  for (std::size_t i = 0; i < cells.size() && i < columns.size(); ++i) {
    line += (i == 0 ? "" : "  ") + padded(cells[i], widths[i], columns[i].align);
  }
  line.erase(line.find_last_not_of(' ') + 1);
  return line + '\n';
}

}  // namespace

int display_width(std::string_view text) {
  int width = 0;
  while (!text.empty()) {
    const Character character = first_character(text);
    width += width_of(character.code);
    text.remove_prefix(character.bytes);
  }
  return width;
}

std::string cut_to_width(std::string_view text, int width) {
  const bool is_too_long = display_width(text) > width;
  const int room = is_too_long ? width - 1 : width;
  std::string shown;
  int used = 0;
  while (!text.empty()) {
    const Character character = first_character(text);
    used += width_of(character.code);
    if (used > room) {
      break;
    }
    shown += is_control(character.code) ? "?" : std::string(text.substr(0, character.bytes));
    text.remove_prefix(character.bytes);
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
      lines += '\n' + spaces(indent);
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

std::string table_text(const std::vector<Heading>& columns,
                       const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::vector<std::string>> shown;
  shown.emplace_back();
  for (const Heading& column : columns) {
    shown.front().push_back(column.heading);
  }
  shown.insert(shown.end(), rows.begin(), rows.end());
  std::vector<int> widths(columns.size(), 0);
  for (std::vector<std::string>& row : shown) {
    if (!row.empty()) {
      row.front() = cut_to_width(row.front(), widest_name);
    }
    for (std::size_t i = 0; i < row.size() && i < widths.size(); ++i) {
      widths[i] = std::max(widths[i], display_width(row[i]));
    }
  }
  std::string text;
  for (const std::vector<std::string>& row : shown) {
    text += line_of(row, columns, widths);
  }
  return text;
}

std::string table_below(const TextTable& table) {
  return table.rows.empty() ? "" : '\n' + table_text(table.columns, table.rows);
}

}  // namespace leat::render
