// A written amount taken apart: its sign, its numbers and the words after each number.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "model/quantity/quantity_text.h"

namespace leat::model {

/// One number and the words after it: "6 ft" of "6 ft 3 in". The words may be empty.
struct WrittenPart {
  double value = 0.0;  // never negative, finite
  std::string number;  // as written, for hints
  std::string words;
};

/// "-6 ft 3 in" is a minus and two parts. There is always at least one part.
struct WrittenQuantity {
  std::vector<WrittenPart> parts;
  bool has_minus = false;
};

/// Takes a text apart. A number is digits with an optional decimal point between digits and an
/// optional exponent, or "3/4", or "1-1/4"; no sign but one leading minus, no leading zeros, no
/// thousands separator. Errors: "not-a-number", "out-of-range" (too large for a number at all).
[[nodiscard]] std::variant<WrittenQuantity, QuantityProblem> take_apart(std::string_view text);

/// The text in quotes for a message, cut where it is long.
[[nodiscard]] std::string quoted(std::string_view text);

/// The text without the blanks at its ends.
[[nodiscard]] std::string_view without_outer_blanks(std::string_view text);

}  // namespace leat::model
