// Room: a typed value in, a sentence out; nothing is decided here.
// Words as they may stand on a screen or in a picture: how wide they are, where they may be parted,
// which characters they may hold.
#pragma once

#include <string>
#include <string_view>

namespace leat::render {

/// A space (U+00A0) at which a line is broken only where the words it joins do not fit a line; it
/// is shown as a plain space.
inline constexpr std::string_view joined_space = "\xC2\xA0";

/// Columns the text takes on a terminal: two for wide (East Asian, emoji) characters, none for
/// marks that combine with the one before.
[[nodiscard]] int display_width(std::string_view text);

/// The text as it may be printed in one line: control characters replaced by '?', and cut to
/// `width` columns with an ellipsis where it is longer.
[[nodiscard]] std::string cut_to_width(std::string_view text, int width);

/// The text in lines of at most `width` columns, broken at spaces, each line but the first
/// beginning with `indent` spaces. A word longer than the line stands alone. Ends in a newline.
[[nodiscard]] std::string wrapped(std::string_view text, int width, int indent);

/// The text as valid UTF-8 that XML can hold: bytes that are none become U+FFFD, control characters
/// become spaces.
[[nodiscard]] std::string printable(std::string_view text);

}  // namespace leat::render
