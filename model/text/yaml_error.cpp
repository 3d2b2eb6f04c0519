#include "model/text/yaml_error.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "model/text/utf8.h"

namespace leat::model {
namespace {

/// One of the parser's messages and what it means here.
struct Translation {
  std::string_view parser_message;
  std::string_view text;
  std::string_view hint;
};

constexpr std::array translations = {
    Translation{"illegal map value",
                "a ': ' stands where no key can be",
                "put a text that holds ': ' in quotes; a key in the line above ends with ':'"},
    Translation{"illegal map key", "a '? ' stands where no key can be", "take it out"},
    Translation{"illegal block entry",
                "a '- ' stands where no list can be",
                "start the list on a line of its own"},
    Translation{"end of map not found",
                "this line does not fit the keys above it",
                "give the line a key followed by ': ', or the indent of the lines it belongs with"},
    Translation{"end of sequence not found",
                "this line does not fit the list above it",
                "start it with '- ', or give it the indent of the lines it belongs with"},
    Translation{"end of map flow not found",
                "a '}' or ',' is missing before this",
                "close what '{' opened and put commas between its parts"},
    Translation{"end of sequence flow not found",
                "a ']' or ',' is missing before this",
                "close what '[' opened and put commas between its parts"},
    Translation{"illegal flow end", "this bracket closes nothing", "take it out"},
    Translation{"unknown token", "this character cannot start a value", "put the text in quotes"},
    Translation{"unknown escape character",
                "this '\\' sequence means nothing",
                "use single quotes, or write \\\\ for a backslash"},
    Translation{"the referenced anchor is not defined",
                "'*' repeats a part that is not there",
                "put a text that starts with * in quotes"},
    Translation{"alias not found after *",
                "'*' repeats a part that is not there",
                "put a text that starts with * in quotes"},
    Translation{
        "anchor not found after &", "'&' names no part", "put a text that starts with & in quotes"},
};

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

bool ends_or_blank(std::string_view text, std::size_t at) {
  return at >= text.size() || text[at] == ' ' || text[at] == '\t';
}

/// Where a line glues its value to the colon: `pool:{surface: 5 m}` anywhere, or `farm:Alder` where
/// the line has no proper colon before it.
std::optional<std::size_t> glued_colon(std::string_view line) {
  const std::size_t bracket = std::min(line.find(":{"), line.find(":["));
  if (bracket != std::string_view::npos) {
    return bracket;
  }
  const std::size_t colon = line.find(':');
  if (colon == std::string_view::npos || ends_or_blank(line, colon + 1)) {
    return std::nullopt;
  }
  return colon;
}

/// Where a comment hides the colon of a key (`north # 2: {...}`).
std::optional<std::size_t> hiding_comment(std::string_view line) {
  const std::size_t hash = line.find(" #");
  if (hash == std::string_view::npos || line.find(':') < hash ||
      line.find(':', hash) == std::string_view::npos || trimmed(line.substr(0, hash)).empty()) {
    return std::nullopt;
  }
  return hash + 1;
}

/// Looks for a slip in the line of the parser's error and in the line with content above it.
bool report_slip(int line, const ColumnCounter& columns, ProblemList& problems) {
  int lines_looked_at = 0;
  for (int at = std::min(line, columns.line_count()); at >= 1 && lines_looked_at < 2; --at) {
    const std::string_view text = columns.line_text(at);
    if (trimmed(text).empty() || trimmed(text).starts_with('#')) {
      continue;
    }
    ++lines_looked_at;
    const auto place = [&](std::size_t byte) {
      return SourcePosition{at, count_characters(text.substr(0, byte)) + 1};
    };
    if (const auto hash = hiding_comment(text)) {
      problems.add("cut-by-hash",
                   place(*hash),
                   "' #' starts a comment, so this and what follows is not read",
                   "leave the # out of names");
      return true;
    }
    if (const auto colon = glued_colon(text)) {
      problems.add("missing-space",
                   place(*colon),
                   "the ':' has no space after it",
                   "write 'key: value', with a space");
      return true;
    }
  }
  return false;
}

}  // namespace

void report_yaml_error(std::string_view parser_message,
                       SourcePosition position,
                       const ColumnCounter& columns,
                       const TextScan& scan,
                       ProblemList& problems) {
  if (scan.open_quote) {
    problems.add("open-quote",
                 *scan.open_quote,
                 "this quote is never closed",
                 "close it at the end of the text");
    return;
  }
  if (!scan.open_brackets.empty()) {
    problems.add("open-bracket",
                 scan.open_brackets.back(),
                 "this bracket is never closed",
                 "close it, or take it out");
    return;
  }
  if (report_slip(position.line, columns, problems)) {
    return;
  }
  // The end mark added behind the text is no line of the file.
  if (position.line > columns.line_count()) {
    const int last = columns.line_count();
    position = SourcePosition{last, count_characters(columns.line_text(last)) + 1};
  }
  const auto* const known =
      std::find_if(translations.begin(), translations.end(), [&](const Translation& translation) {
        return parser_message.starts_with(translation.parser_message);
      });
  if (known != translations.end()) {
    problems.add("not-yaml", position, std::string(known->text), std::string(known->hint));
  } else {
    problems.add("not-yaml", position, fmt::format("this is not YAML: {}", parser_message));
  }
}

}  // namespace leat::model
