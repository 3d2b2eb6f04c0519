#include "model/quantity/written_number.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <system_error>
#include <utility>

namespace leat::model {
namespace {

std::string_view digits_at(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && is_digit(text[end])) {
    ++end;
  }
  return at < text.size() ? text.substr(at, end - at) : std::string_view();
}

char letter_at(std::string_view text, std::size_t at) {
  return at < text.size() ? text[at] : '\0';
}

NumberFault no_number() {
  return {"not-a-number", "does not start with a number", ""};
}

/// The value of digits, point and exponent that have been checked already.
std::optional<double> value_of(std::string_view text) {
  if (text.empty()) {
    return std::nullopt;
  }
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) {
    return std::nullopt;
  }
  return value;
}

std::optional<NumberFault> leading_zero(std::string_view text, std::string_view digits) {
  if (digits.size() < 2 || digits[0] != '0') {
    return std::nullopt;
  }
  const std::size_t zeros = std::min(digits.find_first_not_of('0'), digits.size() - 1);
  return NumberFault{"not-a-number", "starts with a needless 0", std::string(text.substr(zeros))};
}

/// "3/4" or, after a whole number and a hyphen, the "1/4" of "1-1/4".
NumberOutcome read_fraction(std::string_view text, std::string_view whole) {
  const std::size_t start = whole.empty() ? 0 : whole.size() + 1;
  const std::string_view top = digits_at(text, start);
  const std::string_view bottom = digits_at(text, start + top.size() + 1);
  const std::optional<double> whole_value = whole.empty() ? 0.0 : value_of(whole);
  const std::optional<double> top_value = value_of(top);
  const std::optional<double> bottom_value = value_of(bottom);
  if (!whole_value || !top_value || !bottom_value || top[0] == '0' || bottom[0] == '0') {
    return NumberFault{"not-a-number", "holds a fraction that is no number", ""};
  }
  if (!whole.empty() && *top_value >= *bottom_value) {
    return NumberFault{"not-a-number", "holds a fraction of one or more beside a whole number", ""};
  }
  return NumberRead{*whole_value + *top_value / *bottom_value,
                    start + top.size() + 1 + bottom.size()};
}

/// Length of the exponent at `at` ("e-3"), 0 when there is none.
std::size_t exponent_length(std::string_view text, std::size_t at) {
  const char letter = letter_at(text, at);
  if (letter != 'e' && letter != 'E') {
    return 0;
  }
  const char sign = letter_at(text, at + 1);
  const std::size_t sign_length = sign == '+' || sign == '-' ? 1 : 0;
  const std::size_t digits = digits_at(text, at + 1 + sign_length).size();
  return digits == 0 ? 0 : 1 + sign_length + digits;
}

/// What may not follow a number at once: more number, a comma, an underscore, a hyphen.
std::optional<NumberFault> what_follows(std::string_view text, std::size_t length) {
  const char next = letter_at(text, length);
  const std::string_view rest = text.substr(std::min(length + 1, text.size()));
  const std::string before(text.substr(0, length));
  if (next == ',' || next == '_') {
    const std::size_t group = digits_at(rest, 0).size();
    if (group == digits_in_group || next == '_') {
      return NumberFault{"not-a-number",
                         "has a separator inside its number",
                         group == 0 ? "" : before + std::string(rest)};
    }
    return NumberFault{"not-a-number",
                       "has a comma where a decimal point belongs",
                       group == 0 ? "" : before + "." + std::string(rest)};
  }
  if (next == '.') {
    const bool point_at_end = digits_at(rest, 0).empty();
    return NumberFault{"not-a-number",
                       point_at_end ? "has no digit after its point" : "has two decimal points",
                       point_at_end ? before + std::string(rest) : ""};
  }
  if (next == '-' || next == '/' || next == '+') {
    return NumberFault{"not-a-number", "is not one number", ""};
  }
  return std::nullopt;
}

}  // namespace

NumberOutcome read_number(std::string_view text) {
  const std::string_view digits = digits_at(text, 0);
  if (digits.empty()) {
    if (letter_at(text, 0) == '.' && is_digit(letter_at(text, 1))) {
      return NumberFault{"not-a-number", "has no digit before its point", "0" + std::string(text)};
    }
    return no_number();
  }
  if (std::optional<NumberFault> fault = leading_zero(text, digits)) {
    return *std::move(fault);
  }
  const char next = letter_at(text, digits.size());
  if (digits == "0" && (next == 'x' || next == 'X')) {
    return NumberFault{"not-a-number", "is not a decimal number", ""};
  }
  NumberOutcome outcome = NumberRead{};
  const std::string_view after_next = digits_at(text, digits.size() + 1);
  const char after_digits = letter_at(text, digits.size() + 1 + after_next.size());
  if (next == '/' && !after_next.empty()) {
    outcome = read_fraction(text, "");
  } else if (next == '-' && !after_next.empty() && after_digits == '/') {
    outcome = read_fraction(text, digits);
  } else {
    std::size_t length = digits.size();
    if (next == '.' && !after_next.empty()) {
      length += 1 + after_next.size();
    }
    length += exponent_length(text, length);
    const std::optional<double> value = value_of(text.substr(0, length));
    if (!value) {
      return NumberFault{"out-of-range", "holds a number beyond any measure", ""};
    }
    outcome = NumberRead{*value, length};
  }
  if (const NumberRead* number = std::get_if<NumberRead>(&outcome)) {
    if (std::optional<NumberFault> fault = what_follows(text, number->length)) {
      return *std::move(fault);
    }
  }
  return outcome;
}

std::string without_end_zeros(std::string figure) {
  if (figure.find('.') != std::string::npos) {
    figure.erase(figure.find_last_not_of('0') + 1);
    if (figure.back() == '.') {
      figure.pop_back();
    }
  }
  return figure == "-0" ? "0" : figure;
}

}  // namespace leat::model
