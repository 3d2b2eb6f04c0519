#include "render/words/diagnostic_text.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "model/text/utf8.h"

namespace leat::render {
namespace {

/// The most characters of a source line that are shown.
constexpr int widest_line = 100;
/// Where the caret stands in a line that had to be cut at its start.
constexpr int caret_in_cut_line = 50;
/// Nobody reads more problems than this at once; `--json` gives them all.
constexpr std::size_t most_told = 100;
constexpr std::string_view replacement = "\xEF\xBF\xBD";

/// The line's characters, each one column wide on the screen: a tab becomes a space, bytes that are
/// no text become U+FFFD.
std::vector<std::string> shown_characters(std::string_view line) {
  std::vector<std::string> characters;
  for (std::size_t at = 0; at < line.size();) {
    const std::size_t length = model::utf8_length(line, at);
    const auto byte = static_cast<unsigned char>(line[at]);
    if (byte == '\t') {
      characters.emplace_back(" ");
    } else if (length == 0 || byte < 0x20 || byte == 0x7F) {
      characters.emplace_back(replacement);
    } else {
      characters.emplace_back(line.substr(at, length));
    }
    at += std::max<std::size_t>(length, 1);
  }
  return characters;
}

std::string_view line_of(std::string_view source, int number) {
  if (source.starts_with("\xEF\xBB\xBF")) {
    source.remove_prefix(3);
  }
  for (int line = 1; line < number; ++line) {
    const std::size_t end = source.find('\n');
    if (end == std::string_view::npos) {
      return {};
    }
    source.remove_prefix(end + 1);
  }
  std::string_view line = source.substr(0, source.find('\n'));
  if (line.ends_with('\r')) {
    line.remove_suffix(1);
  }
  return line;
}

/// The line and the caret below it, cut so that the caret is in sight.
std::string excerpt(std::string_view line, int column) {
  // A line of megabytes is cut before its characters are looked at one by one.
  const auto far = static_cast<std::size_t>(column + widest_line) * 4;
  const std::vector<std::string> characters = shown_characters(line.substr(0, far));
  const int length = static_cast<int>(characters.size());
  const int caret = std::clamp(column - 1, 0, length);
  const int first = caret < widest_line ? 0 : caret - caret_in_cut_line;
  const int last = std::min(length, first + widest_line);
  std::string text = "  ";
  std::string below = "  ";
  if (first > 0) {
    text += "...";
    below += "   ";
  }
  for (int i = first; i < last; ++i) {
    text += characters[static_cast<std::size_t>(i)];
  }
  text += last < length ? "..." : "";
  below += std::string(static_cast<std::size_t>(caret - first), ' ') + "^";
  return text + "\n" + below + "\n";
}

}  // namespace

std::string diagnostic_text(const model::Diagnostic& problem, std::string_view source) {
  const bool placed = problem.position.line > 0;
  std::string text = problem.file;
  if (placed) {
    text += fmt::format(":{}:{}", problem.position.line, problem.position.column);
  }
  text += fmt::format(": {}: {}\n", model::severity_word(problem.severity), problem.text);
  const std::string_view line =
      placed ? line_of(source, problem.position.line) : std::string_view();
  if (!line.empty()) {
    text += excerpt(line, problem.position.column);
  }
  if (!problem.hint.empty()) {
    text += fmt::format("hint: {}\n", problem.hint);
  }
  return text;
}

std::string problems_text(const std::vector<model::Diagnostic>& problems,
                          const model::LoadedFarm& loaded) {
  std::string text;
  const std::size_t told = std::min(problems.size(), most_told);
  for (std::size_t i = 0; i < told; ++i) {
    const model::Diagnostic& problem = problems[i];
    if (problem.position.line > 0) {
      text += diagnostic_text(problem, model::source_of(loaded, problem));
      continue;
    }
    text += fmt::format("leat: {}{}\n",
                        problem.text,
                        problem.hint.empty() ? std::string() : fmt::format(" ({})", problem.hint));
  }
  if (told < problems.size()) {
    text += fmt::format("and {} more problems\n", problems.size() - told);
  }
  return text;
}

std::string problems_text(const model::LoadedFarm& loaded) {
  return problems_text(loaded.problems, loaded);
}

}  // namespace leat::render
