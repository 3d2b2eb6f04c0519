// How text may look where it is printed: colour or none, and how wide.
#pragma once

#include <iosfwd>
#include <string>
#include <string_view>

namespace leat::render {

enum class Colour { Off, On };

/// The place results are printed to.
struct Terminal {
  Colour colour = Colour::Off;
  int width = 100;                   // columns
  std::ostream* progress = nullptr;  // where a long run may tell how far it is; null: nowhere
  std::ostream* announce = nullptr;  // stdout for what cannot wait for the end; null: nowhere
};

/// Widest table and longest wrapped line, however wide the terminal is [columns].
inline constexpr int widest_text = 100;

/// What this process prints to: colour only where stdout is a terminal that can, and NO_COLOR is
/// not set; the terminal's own width where it is known; progress on stderr where that is a
/// terminal.
[[nodiscard]] Terminal terminal_of_this_process();

/// Columns that running text may take on this terminal, 40 to `widest_text`.
[[nodiscard]] int text_width(const Terminal& terminal);

/// Colour never says anything by itself: the words are always there too.
enum class Style { Plain, Heading, Danger, Caution, Dim };

/// The text in the given style, or as it is where there is no colour.
[[nodiscard]] std::string styled(std::string_view text, Style style, Colour colour);

}  // namespace leat::render
