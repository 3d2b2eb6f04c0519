// The farm file as a plain tree of texts, lists and maps with their places in the file. Strict:
// what YAML readers silently drop or reinterpret is a problem here.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/text/problem_list.h"
#include "model/text/source_position.h"

namespace leat::model {

struct YamlEntry;

/// One value of the file. Numbers are texts here: what a text means is the reader's to say.
struct YamlNode {
  /// Refused: a problem has been reported for it already; readers pass over it in silence.
  enum class Kind { Nothing, Text, List, Map, Refused };
  Kind kind = Kind::Nothing;
  std::string text;                // of a Text
  std::vector<YamlNode> items;     // of a List
  std::vector<YamlEntry> entries;  // of a Map, in the order of the file, keys unique
  SourcePosition position;         // of its first character; of its key where the value is empty
};

/// A key of a map and its value.
struct YamlEntry {
  std::string key;
  SourcePosition position;  // of the key
  YamlNode value;
};

/// Reads the text into a tree. Survives any bytes. On problems that leave nothing to read (codes
/// too-large, too-deep, not-utf8, control-character, not-yaml ...) the tree is Nothing; problems
/// that spoil one value only (anchor, tag, duplicate-key ...) leave the rest to be read.
[[nodiscard]] YamlNode read_yaml(std::string_view text, ProblemList& problems);

/// The entry of a map with that key; nullptr where there is none.
[[nodiscard]] const YamlEntry* entry_of(const YamlNode& map, std::string_view key);

/// What a value is, for messages: "nothing", "a text", "a list", "keys with values".
[[nodiscard]] const char* kind_word(const YamlNode& node);

}  // namespace leat::model
