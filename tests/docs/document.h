// The project's own documents taken apart: fenced blocks, sections, tables.
#pragma once

#include <string>
#include <vector>

namespace leat::tests {

/// A block between fences of three backticks.
struct FencedBlock {
  std::string kind;  // the word behind the opening fence, "text" say
  std::vector<std::string> lines;
  int line = 0;  // of the opening fence, from 1
};

/// A file of the repository, named from its root; fails the test where it is not there.
[[nodiscard]] std::string document(const std::string& name);

[[nodiscard]] std::vector<std::string> lines_of(const std::string& text);
[[nodiscard]] std::string text_of(const std::vector<std::string>& lines);

[[nodiscard]] std::vector<FencedBlock> fenced_blocks(const std::string& text);

/// What stands under the heading with that text, down to the next heading of its rank or a higher
/// one; headings below it are part of it. Empty where there is no such heading.
[[nodiscard]] std::string section(const std::string& text, const std::string& heading);

/// The cells of all table rows in order, without the heading and the rule below it.
[[nodiscard]] std::vector<std::vector<std::string>> table_rows(const std::string& text);

/// What stands between single backticks, outside fenced blocks.
[[nodiscard]] std::vector<std::string> code_spans(const std::string& text);

/// "**from**, **to**" as from and to: the names a table's first cell holds.
[[nodiscard]] std::vector<std::string> names_in_cell(const std::string& cell);

}  // namespace leat::tests
