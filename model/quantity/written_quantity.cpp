#include "model/quantity/written_quantity.h"

#include <cstddef>
#include <optional>
#include <utility>

#include "model/quantity/written_number.h"
#include "model/text/utf8.h"

namespace leat::model {
namespace {

/// Longest text shown in a message [bytes]; a farm file may hold a scalar of many megabytes.
constexpr std::size_t longest_shown = 60;
/// Longest text that can still be an amount ("acre-ft in 1 day 6 h 30 min 12 s" is far shorter).
constexpr std::size_t longest_quantity = 120;

constexpr std::string_view true_minus = "\u2212";

QuantityProblem problem_of(std::string_view text, std::string_view before, NumberFault fault) {
  QuantityProblem problem{fault.code, quoted(text) + " " + fault.reason, ""};
  if (!fault.repaired.empty()) {
    problem.hint = "write " + std::string(before) + fault.repaired;
  } else if (fault.code == "not-a-number") {
    problem.hint = "write digits with a decimal point, or a fraction: 12.5, 3/4 or 1-1/4";
  }
  return problem;
}

/// Where the words after a number end: at a blank before the next number, or at the text's end.
std::size_t end_of_words(std::string_view text, std::size_t at) {
  while (at < text.size()) {
    const char next = at + 1 < text.size() ? text[at + 1] : '\0';
    if (text[at] == ' ' && (is_digit(next) || next == '.')) {
      return at;
    }
    ++at;
  }
  return at;
}

std::optional<QuantityProblem> odd_blanks(std::string_view text) {
  std::string mended;
  for (const char letter : text) {
    const bool is_blank = letter == ' ' || letter == '\t' || letter == '\n' || letter == '\r';
    if (!is_blank) {
      mended += letter;
    } else if (mended.empty() || mended.back() != ' ') {
      mended += ' ';
    }
  }
  if (mended == text) {
    return std::nullopt;
  }
  return QuantityProblem{
      "not-a-number", quoted(text) + " has more than one blank in a row", "write " + mended};
}

/// "1 1/4 in" and "1 200 m": a number without words before another number.
std::optional<QuantityProblem> split_number(std::string_view text, const WrittenQuantity& written) {
  for (std::size_t i = 0; i + 1 < written.parts.size(); ++i) {
    if (!written.parts[i].words.empty()) {
      continue;
    }
    const std::string& next = written.parts[i + 1].number;
    const bool is_fraction = next.find('/') != std::string::npos;
    QuantityProblem problem{
        "not-a-number", quoted(text) + " has a blank inside its number", "write one number"};
    const std::size_t blank = text.find(' ');
    if (written.parts.size() == 2 && (is_fraction || next.size() == digits_in_group)) {
      std::string mended(text);
      mended.replace(blank, 1, is_fraction ? "-" : "");
      problem.hint = "write " + mended;
    }
    return problem;
  }
  return std::nullopt;
}

}  // namespace

std::string quoted(std::string_view text) {
  if (text.size() <= longest_shown) {
    return "'" + std::string(text) + "'";
  }
  return "'" + std::string(model::whole_characters(text, longest_shown)) + "...'";
}

std::string_view without_outer_blanks(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::variant<WrittenQuantity, QuantityProblem> take_apart(std::string_view text) {
  text = without_outer_blanks(text);
  if (text.empty()) {
    return QuantityProblem{"not-a-number", "there is no number", "write a number"};
  }
  if (text.size() > longest_quantity) {
    return QuantityProblem{"not-a-number", quoted(text) + " is too long for an amount", ""};
  }
  if (std::optional<QuantityProblem> problem = odd_blanks(text)) {
    return *std::move(problem);
  }
  if (text.substr(0, true_minus.size()) == true_minus) {
    return QuantityProblem{"not-a-number",
                           quoted(text) + " starts with a long minus",
                           "write -" + std::string(text.substr(true_minus.size()))};
  }
  if (text[0] == '+') {
    return QuantityProblem{"not-a-number",
                           quoted(text) + " starts with a plus",
                           "write " + std::string(text.substr(1))};
  }
  WrittenQuantity written;
  written.has_minus = text[0] == '-';
  std::size_t at = written.has_minus ? 1 : 0;
  do {
    const NumberOutcome outcome = read_number(text.substr(at));
    if (const NumberFault* fault = std::get_if<NumberFault>(&outcome)) {
      return problem_of(text, text.substr(0, at), *fault);
    }
    const NumberRead& number = std::get<NumberRead>(outcome);
    WrittenPart part;
    part.value = number.value;
    part.number = std::string(text.substr(at, number.length));
    at += number.length;
    const std::size_t end = end_of_words(text, at);
    part.words = std::string(without_outer_blanks(text.substr(at, end - at)));
    written.parts.push_back(std::move(part));
    at = end + 1;
  } while (at < text.size());
  if (std::optional<QuantityProblem> problem = split_number(text, written)) {
    return *std::move(problem);
  }
  return written;
}

}  // namespace leat::model
