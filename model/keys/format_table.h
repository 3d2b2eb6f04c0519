// FORMAT.md's tables of keys, made of their rows.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/keys/key.h"

namespace leat::model {

/// A table of FORMAT.md: the word that marks its place there, its first heading, and its keys.
struct FormatTable {
  std::string_view mark;  // stands in "<!-- keys: MARK -->"
  std::string_view heading;
  const KeyTable& keys;
};

/// Every table, in the order of the document.
[[nodiscard]] std::vector<FormatTable> format_tables();

/// The lines of a table: a row a key or a group of keys, required ones bold.
[[nodiscard]] std::string table_text(const FormatTable& table);

/// The document with every table between its marks written anew. Throws std::invalid_argument where
/// a table has no marks in it, or a mark no table.
[[nodiscard]] std::string with_format_tables(std::string_view document);

}  // namespace leat::model
