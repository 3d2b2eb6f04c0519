#include "tests/support/farm_mutation.h"

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <utility>

namespace leat::test {

namespace {

constexpr std::size_t none = std::string_view::npos;

/// Walks the text once, noting entries.
class EntryScan {
 public:
  explicit EntryScan(std::string_view text) : text_(text) {}

  std::vector<FarmEntry> run() {
    std::size_t at = 0;
    while (at < text_.size()) {
      at = block_line(at);
    }
    return std::move(entries_);
  }

 private:
  [[nodiscard]] std::size_t line_end(std::size_t at) const {
    return std::min(text_.find('\n', at), text_.size());
  }
  [[nodiscard]] std::size_t past_spaces(std::size_t at) const {
    return std::min(text_.find_first_not_of(" \n", at), text_.size());
  }

  /// One past the quoted text that starts here.
  [[nodiscard]] std::size_t past_quotes(std::size_t at) const {
    const std::size_t close = text_.find(text_[at], at + 1);
    return close == none ? text_.size() : close + 1;
  }

  /// One past the plain or quoted text that starts here: it ends at ": ", at a comment, at the
  /// line's end, and in brackets at a comma or a closing bracket too.
  [[nodiscard]] std::size_t past_word(std::size_t at, bool in_brackets) const {
    if (at < text_.size() && (text_[at] == '"' || text_[at] == '\'')) {
      return past_quotes(at);
    }
    std::size_t end = at;
    while (end < text_.size() && text_[end] != '\n') {
      const char next = end + 1 < text_.size() ? text_[end + 1] : '\n';
      if (text_[end] == ':' && (next == ' ' || next == '\n')) {
        break;
      }
      if (text_[end] == ' ' && next == '#') {
        break;
      }
      if (in_brackets && (text_[end] == ',' || text_[end] == ']' || text_[end] == '}')) {
        break;
      }
      ++end;
    }
    while (end > at && text_[end - 1] == ' ') {
      --end;
    }
    return end;
  }

  [[nodiscard]] bool opens_bracket(std::size_t at) const {
    return at < text_.size() && (text_[at] == '{' || text_[at] == '[');
  }

  /// Reads a bracketed map or list; gives one past its closing bracket.
  std::size_t bracket(std::size_t open) {
    const char close = text_[open] == '{' ? '}' : ']';
    std::size_t at = past_spaces(open + 1);
    while (at < text_.size() && text_[at] != close) {
      const std::size_t end = bracket_entry(at, close == '}');
      at = past_spaces(end);
      const bool more = at < text_.size() && text_[at] == ',';
      at = more ? past_spaces(at + 1) : at;
      if (at == end) {
        break;  // no farm written here comes to this; but never stand still
      }
    }
    return std::min(at + 1, text_.size());
  }

  std::size_t bracket_entry(std::size_t at, bool in_map) {
    FarmEntry entry;
    entry.in_brackets = true;
    entry.whole_begin = at;
    entry.key_begin = at;
    entry.value_begin = at;
    if (in_map) {
      const std::size_t key_end = past_word(at, true);
      entry.key = text_.substr(at, key_end - at);
      entry.value_begin = std::min(key_end + 2, text_.size());
    }
    const std::size_t place = entries_.size();
    entries_.push_back(entry);
    const bool parts = opens_bracket(entry.value_begin);
    const std::size_t end = parts ? bracket(entry.value_begin) : past_word(entry.value_begin, true);
    entries_[place].has_parts = parts;
    entries_[place].value_end = end;
    const bool comma = end + 1 < text_.size() && text_[end] == ',';
    entries_[place].whole_end = comma ? past_spaces(end + 1) : end;
    return end;
  }

  /// Where the lines end that are indented deeper than `indent`.
  [[nodiscard]] std::size_t block_end(std::size_t from, std::size_t indent) const {
    std::size_t at = from;
    while (at < text_.size()) {
      const std::size_t first = std::min(text_.find_first_not_of(' ', at), text_.size());
      const bool blank = first == text_.size() || text_[first] == '\n' || text_[first] == '#';
      if (!blank && first - at <= indent) {
        break;
      }
      at = std::min(line_end(first) + 1, text_.size());
    }
    return at;
  }

  /// Reads the line that starts here, with the brackets that run on from it; gives the next line.
  std::size_t block_line(std::size_t start) {
    std::size_t at = std::min(text_.find_first_not_of(' ', start), text_.size());
    const std::size_t next = std::min(line_end(at) + 1, text_.size());
    if (at == text_.size() || text_[at] == '\n' || text_[at] == '#') {
      return next;
    }
    FarmEntry entry;
    entry.whole_begin = start;
    const std::size_t indent = at - start;
    if (text_.substr(at, 2) == "- ") {
      entry.key_begin = at;
      entry.value_begin = at + 2;
    } else {
      const std::size_t key_end = past_word(at, false);
      entry.key = text_.substr(at, key_end - at);
      entry.key_begin = at;
      entry.value_begin = std::min(text_.find_first_not_of(' ', key_end + 1), text_.size());
    }
    const std::size_t place = entries_.size();
    entries_.push_back(entry);
    std::size_t end = entry.value_begin;
    bool parts = true;
    std::size_t after = next;
    if (opens_bracket(end)) {
      end = bracket(end);
      after = std::min(line_end(end) + 1, text_.size());
      entries_[place].whole_end = after;
    } else if (end < text_.size() && text_[end] != '\n' && text_[end] != '#') {
      end = past_word(end, false);
      parts = false;
      entries_[place].whole_end = next;
    } else {
      end = block_end(next, indent);
      entries_[place].whole_end = end;
      entries_[place].value_begin = std::min(line_end(at), text_.size());
    }
    entries_[place].value_end = end;
    entries_[place].has_parts = parts;
    return after;
  }

  std::string_view text_;
  std::vector<FarmEntry> entries_;
};

/// The text with the bytes from `begin` to `end` put otherwise.
std::string with(std::string_view text, std::size_t begin, std::size_t end, std::string_view put) {
  std::string spoilt(text.substr(0, begin));
  spoilt += put;
  spoilt += text.substr(end);
  return spoilt;
}

/// The unit behind the number a value starts with, with its space (" m"); none for other values.
std::optional<std::string> unit_of(std::string_view value) {
  const std::size_t past = value.find_first_not_of("-+.0123456789/");
  if (past == 0 || value.empty() || value.find_first_of("0123456789") == none) {
    return std::nullopt;
  }
  return past == none ? std::string() : std::string(value.substr(past));
}

/// The values put in place of one: what a slip of the pen, a script or malice writes.
std::vector<std::string> other_values(std::string_view value) {
  std::vector<std::string> others = {"",
                                     "nan",
                                     ".inf",
                                     "~",
                                     "yes",
                                     "0",
                                     "-1",
                                     "[]",
                                     "{}",
                                     "[1 m, 2]",
                                     "1 m",
                                     "{bogus: 1 m}",
                                     "'' ",
                                     "1 :",
                                     "99999999 99999",
                                     "1e400"};
  others.emplace_back(10000, 'x');
  const std::optional<std::string> unit = unit_of(value);
  if (!unit) {
    return others;
  }
  for (const char* const number : {"1e300",
                                   "99999999",
                                   "1e5",
                                   "1e-300",
                                   "1e-9",
                                   "1e-3",
                                   "0",
                                   "nan",
                                   "-0",
                                   "00",
                                   "1/0",
                                   "0x10",
                                   "1,5"}) {
    others.push_back(number + *unit);
  }
  others.push_back("-" + std::string(value));
  const std::string number(value.substr(0, value.size() - unit->size()));
  // Scaled and shifted values are the ones a farm may well have: they reach the solver.
  if (number.find('/') == std::string::npos) {
    const double amount = std::strtod(number.c_str(), nullptr);
    for (const double scaled : {amount * 0.01,
                                amount * 0.1,
                                amount * 0.5,
                                amount * 0.99,
                                amount * 1.01,
                                amount * 2.0,
                                amount * 10.0,
                                amount * 100.0,
                                amount - 20.0,
                                amount - 1.0,
                                amount + 1.0,
                                amount + 20.0}) {
      others.push_back(std::to_string(scaled) + *unit);
    }
  }
  for (const char* const other : {"", " gal/min", " ft", " psi", " C", " m3", " %", " parsec"}) {
    others.push_back(number + other);
  }
  return others;
}

/// Whether a value is wrong whatever else the farm says: no number, no unit of any kind.
bool is_plain_slip(std::string_view value) {
  return value == "nan" || value.size() >= 10000 || value.ends_with(" parsec");
}

/// A letter changed, and a letter dropped.
std::vector<std::string> misspelt(std::string_view key) {
  std::vector<std::string> words;
  const std::size_t middle = key.size() / 2;
  std::string changed(key);
  changed[middle] = changed[middle] == 'q' ? 'v' : 'q';
  words.push_back(changed);
  if (key.size() > 1) {
    words.push_back(with(key, middle, middle + 1, ""));
  }
  return words;
}

std::string short_of(const std::string& value) {
  return value.size() > 40 ? value.substr(0, 10) + "... of " + std::to_string(value.size()) : value;
}

}  // namespace

std::vector<FarmEntry> entries_of(std::string_view text) {
  return EntryScan(text).run();
}

std::vector<FarmMutation> mutations_of(std::string_view text, const FarmEntry& entry) {
  const auto line = static_cast<std::size_t>(
      1 +
      std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(entry.key_begin), '\n'));
  const std::string_view value =
      text.substr(entry.value_begin, entry.value_end - entry.value_begin);
  const std::string name = entry.key.empty() ? "item '" + short_of(std::string(value)) + "'"
                                             : "'" + std::string(entry.key) + "'";
  std::vector<FarmMutation> all;
  const auto note = [&](const std::string& what, std::string spoilt) {
    all.push_back({name + what, line, false, std::move(spoilt)});
  };
  const std::string_view whole =
      text.substr(entry.whole_begin, entry.whole_end - entry.whole_begin);
  note(" taken out", with(text, entry.whole_begin, entry.whole_end, ""));
  const bool last = entry.in_brackets && entry.whole_end == entry.value_end;
  note(" doubled",
       with(text, entry.whole_begin, entry.whole_begin, std::string(whole) + (last ? ", " : "")));
  if (!entry.key.empty()) {
    for (const std::string& word : misspelt(entry.key)) {
      note(" misspelt " + word,
           with(text, entry.key_begin, entry.key_begin + entry.key.size(), word));
    }
  }
  // A block under a key goes with its line's end; what takes its place needs both back.
  const bool block = !value.empty() && value.front() == '\n';
  for (const std::string& other : other_values(value)) {
    note(" = " + short_of(other),
         with(text, entry.value_begin, entry.value_end, block ? " " + other + "\n" : other));
    all.back().plain_slip = is_plain_slip(other);
  }
  return all;
}

}  // namespace leat::test
