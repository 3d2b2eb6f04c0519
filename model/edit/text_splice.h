// Room: a change to a farm file leaves every other byte as it was.
//
// Values put into the text of a farm file: every other byte stays, remarks and order with them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "model/text/diagnostic.h"

namespace leat::model {

/// One value and where it goes: keys from the top of the file down ("pipes", "main", "valve",
/// "open"; in a list the number of the item, from 0). Without a text the key is taken out.
struct TextEdit {
  std::vector<std::string> path;
  std::optional<std::string> text;

  friend bool operator==(const TextEdit&, const TextEdit&) = default;
};

/// The source with the edits made, one after the other. A key that is absent is added at the end of
/// its map, in the map's own style; taking out an absent key changes nothing. The new text is read
/// again: a change that would move anything but the value asked for is refused. Error (code
/// "cannot-splice"): the value has no place in the file, or stands there in a form that cannot be
/// replaced byte for byte (a text over several lines).
[[nodiscard]] std::variant<std::string, Diagnostic> spliced_text(
    std::string_view source, const std::string& file, const std::vector<TextEdit>& edits);

}  // namespace leat::model
