// A number as people write it at the start of a text: "12.5", "1e-3", "3/4", "1-1/4".
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>

namespace leat::model {

/// Thousands are written in groups of three, which a farm file does not take.
inline constexpr std::size_t digits_in_group = 3;

/// A number read from the start of a text; `length` bytes of it were used.
struct NumberRead {
  double value = 0.0;
  std::size_t length = 0;
};

/// Why no number could be read, and the same text written rightly (empty: no suggestion).
struct NumberFault {
  std::string code;
  std::string reason;
  std::string repaired;
};

using NumberOutcome = std::variant<NumberRead, NumberFault>;

[[nodiscard]] constexpr bool is_digit(char letter) {
  return letter >= '0' && letter <= '9';
}

/// A figure without the zeros that end its decimals, nor their point: "2.50" is "2.5", "-0.0" is
/// "0".
[[nodiscard]] std::string without_end_zeros(std::string figure);

/// Reads a number without sign from the start of the text.
[[nodiscard]] NumberOutcome read_number(std::string_view text);

}  // namespace leat::model
