// Farms spoilt one place at a time: every key and value of a farm file is found by its place in the
// text and taken out, doubled, misspelt or given another value.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace leat::test {

/// A key with its value, or an item of a list, by its bytes in the text: first, and one past last.
struct FarmEntry {
  std::string_view key;  // empty for an item of a list
  std::size_t key_begin = 0;
  std::size_t value_begin = 0;
  std::size_t value_end = 0;
  std::size_t whole_begin = 0;  // with the comma, or the lines, that go when the entry goes
  std::size_t whole_end = 0;
  bool in_brackets = false;
  bool has_parts = false;  // the value is a map or a list
};

/// Every entry of the farm file, inside brackets too. The views point into `text`. Knows the YAML
/// that farms are written in here: block maps, lists of dashes, brackets, quotes and comments.
[[nodiscard]] std::vector<FarmEntry> entries_of(std::string_view text);

/// One spoilt farm.
struct FarmMutation {
  std::string what;         // "overflow = 1e300 m"
  std::size_t line = 0;     // the spoilt line, from 1
  bool plain_slip = false;  // a value that is wrong in itself: where refused, then on this line
  std::string text;
};

/// All the ways one entry is spoilt.
[[nodiscard]] std::vector<FarmMutation> mutations_of(std::string_view text, const FarmEntry& entry);

}  // namespace leat::test
