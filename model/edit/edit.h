// Room: a farm file's text is changed where it must be; every other byte stays.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "model/text/diagnostic.h"

namespace leat::model {

/// Where an edit is: keys from the top of the file down ("pipes", "main", "valve", "open"; in a
/// list the number of the item, from 0).
using EditPath = std::vector<std::string>;

/// Sets one value, or, without a text, takes the key out with it. A key that is absent is added at
/// the end of its map, in the map's own style; taking out an absent key changes nothing.
struct TextEdit {
  EditPath path;
  std::optional<std::string> text;

  friend bool operator==(const TextEdit&, const TextEdit&) = default;
};

/// Puts a new key or item before the first, or behind the last, of the map or list at `path`. In a
/// list, `key` is empty. `yaml` is written as it stands: a value of one line.
struct InsertEdit {
  enum class Where { First, Last };
  EditPath path;
  std::string key;
  std::string yaml;
  Where where = Where::Last;
};

/// Gives the key at the path's end another name.
struct RenameEdit {
  EditPath path;
  std::string name;
};

/// Puts an entry, with the remarks beside and right above it, before another of its map; behind the
/// last where `before` is empty. Both stand in lines of their own.
struct MoveEdit {
  EditPath path;
  std::string before;
};

using Edit = std::variant<TextEdit, InsertEdit, RenameEdit, MoveEdit>;

/// The source with the edits made, one after the other. The new text is read again: a change that
/// would move anything but what was asked for is refused. Error (code "cannot-splice"): the edit
/// has no place in the file, or what stands there has a form that cannot be replaced byte for byte
/// (a text over several lines).
[[nodiscard]] std::variant<std::string, Diagnostic> edited_text(std::string_view source,
                                                                const std::string& file,
                                                                const std::vector<Edit>& edits);

/// The edits that give a place or a pipe another name wherever the file names it: its own key, the
/// pipes and pumps that join it, the rams it drives or serves, what was measured at it, when its
/// float breaks. `section` is that of the file, "troughs" or "pipes". Empty where the file has no
/// such entry.
[[nodiscard]] std::vector<Edit> renaming(std::string_view source,
                                         const std::string& section,
                                         const std::string& from,
                                         const std::string& to);

}  // namespace leat::model
