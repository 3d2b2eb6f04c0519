// UTF-8, decoded in one place (Unicode Standard 15, table 3-7).
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace leat::model {

/// The length of the valid UTF-8 character that starts at `at`, 0 where none does: no overlong
/// forms, no surrogates, nothing above U+10FFFF.
[[nodiscard]] std::size_t utf8_length(std::string_view text, std::size_t at);

/// A character and the bytes it stands in.
struct Character {
  std::uint32_t code = 0;
  std::size_t bytes = 1;
  bool is_valid = true;  // else one stray byte, its value the code
};

/// The character that starts at `at`, which lies within the text.
[[nodiscard]] Character character_at(std::string_view text, std::size_t at);

/// Whether the character steers the output instead of being shown: C0, delete, C1.
[[nodiscard]] bool is_control(std::uint32_t code);

/// The first `most` bytes of a UTF-8 text, fewer where they would part a character; the whole text
/// where it is no longer.
[[nodiscard]] std::string_view whole_characters(std::string_view text, std::size_t most);

/// How many characters a valid UTF-8 text holds.
[[nodiscard]] int count_characters(std::string_view text);

}  // namespace leat::model
