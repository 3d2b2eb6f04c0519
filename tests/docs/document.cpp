#include "tests/docs/document.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <sstream>

#include <catch2/catch.hpp>

namespace leat::tests {

namespace {

constexpr const char* fence = "```";

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(' ');
  return first == std::string::npos ? ""
                                    : text.substr(first, text.find_last_not_of(' ') - first + 1);
}

/// The rank of a heading line, 0 where it is none.
std::size_t heading_rank(const std::string& line) {
  const std::size_t marks = line.find_first_not_of('#');
  return marks != std::string::npos && marks > 0 && line[marks] == ' ' ? marks : 0;
}

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::size_t at = 1;
  for (std::size_t bar = line.find('|', at); bar != std::string::npos; bar = line.find('|', at)) {
    cells.push_back(trimmed(line.substr(at, bar - at)));
    at = bar + 1;
  }
  return cells;
}

bool is_rule(const std::string& line) {
  return line.find_first_not_of("|-: ") == std::string::npos;
}

/// The lines outside fenced blocks.
std::vector<std::string> prose_of(const std::string& text) {
  std::vector<std::string> prose;
  bool inside = false;
  for (const std::string& line : lines_of(text)) {
    const bool is_fence = line.starts_with(fence);
    if (!is_fence && !inside) {
      prose.push_back(line);
    }
    inside = inside != is_fence;
  }
  return prose;
}

}  // namespace

std::string document(const std::string& name) {
  INFO("document " << name);
  std::ifstream stream(std::string(LEAT_SOURCE_DIR) + "/" + name, std::ios::binary);
  REQUIRE(stream.good());
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) {
    lines.push_back(line);
  }
  return lines;
}

std::string text_of(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) {
    text += line + "\n";
  }
  return text;
}

std::vector<FencedBlock> fenced_blocks(const std::string& text) {
  std::vector<FencedBlock> blocks;
  bool inside = false;
  int number = 0;
  for (const std::string& line : lines_of(text)) {
    ++number;
    if (line.starts_with(fence)) {
      if (!inside) {
        blocks.push_back({line.substr(3), {}, number});
      }
      inside = !inside;
    } else if (inside) {
      blocks.back().lines.push_back(line);
    }
  }
  return blocks;
}

std::string section(const std::string& text, const std::string& heading) {
  std::string found;
  std::size_t rank = 0;
  bool fenced = false;
  for (const std::string& line : lines_of(text)) {
    fenced = fenced != line.starts_with(fence);
    const std::size_t here = fenced ? 0 : heading_rank(line);
    if (here > 0 && rank > 0 && here <= rank) {
      return found;
    }
    if (rank > 0) {
      found += line + "\n";
    } else if (here > 0 && line.substr(here + 1) == heading) {
      rank = here;
    }
  }
  return found;
}

std::vector<std::vector<std::string>> table_rows(const std::string& text) {
  std::vector<std::vector<std::string>> rows;
  for (const std::string& line : prose_of(text)) {
    if (!line.starts_with("|")) {
      continue;
    }
    if (is_rule(line)) {
      rows.pop_back();  // the heading stood above it
    } else {
      rows.push_back(cells_of(line));
    }
  }
  return rows;
}

std::vector<std::string> code_spans(const std::string& text) {
  std::vector<std::string> spans;
  for (const std::string& line : prose_of(text)) {
    std::size_t open = line.find('`');
    while (open != std::string::npos) {
      const std::size_t close = line.find('`', open + 1);
      if (close == std::string::npos) {
        break;
      }
      spans.push_back(line.substr(open + 1, close - open - 1));
      open = line.find('`', close + 1);
    }
  }
  return spans;
}

std::vector<std::string> names_in_cell(const std::string& cell) {
  std::vector<std::string> names;
  std::istringstream stream(cell);
  for (std::string name; std::getline(stream, name, ',');) {
    name.erase(
        std::remove_if(
            name.begin(), name.end(), [](char letter) { return letter == '*' || letter == '`'; }),
        name.end());
    names.push_back(trimmed(name));
  }
  return names;
}

}  // namespace leat::tests
