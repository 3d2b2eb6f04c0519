#include "tests/docs/shown_runs.h"

#include <cmath>
#include <cstdlib>

#include <catch2/catch.hpp>

#include "tests/render/run_words.h"

namespace leat::tests {

namespace {

constexpr const char* prompt = "$ leat ";
constexpr const char* echo_status = "; echo $?";
// A drawing and a season carry their day; any fixed one will do. 2026-08-14.
constexpr const char* a_fixed_day = "1786665600";

/// Words as a shell splits them: blanks part them, but not inside quotes.
std::vector<std::string> words_of(const std::string& command) {
  std::vector<std::string> words;
  std::string word;
  char quote = 0;
  bool begun = false;
  for (const char letter : command) {
    if (quote != 0 ? letter == quote : letter == '"' || letter == '\'') {
      quote = quote != 0 ? '\0' : letter;
      begun = true;
    } else if (letter == ' ' && quote == 0) {
      if (begun) {
        words.push_back(word);
      }
      word.clear();
      begun = false;
    } else {
      word += letter;
      begun = true;
    }
  }
  if (begun) {
    words.push_back(word);
  }
  return words;
}

/// A line cut where numbers begin and end.
std::vector<std::string> pieces_of(const std::string& line) {
  std::vector<std::string> pieces;
  bool in_number = false;
  for (const char letter : line) {
    const bool is_digit = letter >= '0' && letter <= '9';
    const bool is_of_number = is_digit || (in_number && (letter == '.' || letter == 'e'));
    if (pieces.empty() || is_of_number != in_number) {
      pieces.emplace_back();
    }
    in_number = is_of_number;
    pieces.back() += letter;
  }
  return pieces;
}

/// Only JSON prints so many digits; a document may cut them, and compilers differ in the last ones.
constexpr std::size_t digits_of_a_full_number = 10;
constexpr double cut_tolerance = 1e-6;

bool same_piece(const std::string& shown, const std::string& real) {
  if (shown == real) {
    return true;
  }
  const bool numbers = real.size() > digits_of_a_full_number && real.front() >= '0' &&
                       real.front() <= '9' && shown.front() >= '0' && shown.front() <= '9';
  if (!numbers) {
    return false;
  }
  const double value = std::strtod(real.c_str(), nullptr);
  return std::abs(std::strtod(shown.c_str(), nullptr) - value) <= cut_tolerance * value;
}

bool matches(const std::string& shown, const std::string& real) {
  const std::string cut = " ...";
  const bool is_cut = shown.size() > cut.size() && shown.ends_with(cut);
  const std::vector<std::string> wanted =
      pieces_of(is_cut ? shown.substr(0, shown.size() - cut.size()) : shown);
  const std::vector<std::string> there = pieces_of(real);
  if (is_cut ? there.size() < wanted.size() : there.size() != wanted.size()) {
    return false;
  }
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const bool is_last_of_cut = is_cut && i + 1 == wanted.size();
    if (!same_piece(wanted[i], there[i]) && !(is_last_of_cut && there[i].starts_with(wanted[i]))) {
      return false;
    }
  }
  return true;
}

}  // namespace

std::vector<ShownRun> shown_runs(const std::string& text) {
  std::vector<ShownRun> runs;
  for (const FencedBlock& block : fenced_blocks(text)) {
    bool under_a_command = false;
    int number = block.line;
    for (const std::string& line : block.lines) {
      ++number;
      if (line.starts_with(prompt)) {
        std::string command = line.substr(std::string(prompt).size());
        const bool shows_status = command.ends_with(echo_status);
        if (shows_status) {
          command.erase(command.size() - std::string(echo_status).size());
        }
        runs.push_back({words_of(command), shows_status, {}, number});
        under_a_command = true;
      } else if (line.starts_with("$ ") || line.starts_with("The schematics are in ")) {
        under_a_command = false;  // another program, or what the script `demo` says itself
      } else if (under_a_command) {
        runs.back().lines.push_back(line);
      }
    }
  }
  return runs;
}

std::string first_line_missing(const std::vector<std::string>& shown, const std::string& output) {
  const std::vector<std::string> real = lines_of(output);
  std::size_t at = 0;
  bool may_skip = false;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const std::string& line = shown[i];
    if (line == "...") {
      may_skip = true;
      continue;
    }
    while (may_skip && at < real.size() && !matches(line, real[at])) {
      ++at;
    }
    may_skip = false;
    if (at < real.size() && matches(line, real[at])) {
      ++at;
    } else if (!line.empty() || i + 1 < shown.size()) {
      return line.empty() ? "(a blank line)" : line;
    }
  }
  std::size_t end = shown.size();
  while (end > 0 && shown[end - 1].empty()) {
    --end;
  }
  const bool all_shown = at == real.size() || (end > 0 && shown[end - 1] == "...");
  return all_shown ? "" : "(the end)";
}

std::string name_of(const FencedBlock& block) {
  if (block.lines.empty() || !block.lines.front().starts_with("# ")) {
    return "";
  }
  const std::string name = block.lines.front().substr(2);
  const bool is_file =
      name.find(' ') == std::string::npos && (name.ends_with(".yaml") || name.ends_with(".csv"));
  return is_file ? name : "";
}

ExampleFolder::ExampleFolder(const std::string& text) : before_(std::filesystem::current_path()) {
  for (const FencedBlock& block : fenced_blocks(text)) {
    const std::string name = name_of(block);
    if (!name.empty()) {
      folder_.write(name, text_of(block.lines));
    }
  }
  std::filesystem::create_directory_symlink(
      std::filesystem::path(LEAT_SOURCE_DIR) / "networks-demo", folder_.file("networks-demo"));
  std::filesystem::current_path(folder_.file(""));
  setenv("SOURCE_DATE_EPOCH", a_fixed_day, 1);
}

ExampleFolder::~ExampleFolder() {
  std::error_code error;
  std::filesystem::current_path(before_, error);
  unsetenv("SOURCE_DATE_EPOCH");
}

RunOutcome outcome_of(const ShownRun& run) {
  const render::Outcome outcome = render::run_words(run.words);
  RunOutcome result{outcome.status, outcome.out + outcome.err, outcome.err};
  if (run.shows_status) {
    result.shown += std::to_string(outcome.status) + "\n";
  }
  return result;
}

void check_shown_runs(const std::string& name) {
  const std::string text = document(name);
  const ExampleFolder folder(text);
  for (const FencedBlock& block : fenced_blocks(text)) {
    const bool is_output = block.kind == "text" || block.kind == "json" || block.kind == "csv";
    INFO(name << ":" << block.line);
    CHECK((!is_output || !name_of(block).empty() ||
           (!block.lines.empty() && block.lines.front().starts_with("$ "))));
  }
  for (const ShownRun& run : shown_runs(text)) {
    INFO(name << ":" << run.line);
    const RunOutcome outcome = outcome_of(run);
    INFO(outcome.shown);
    // A run that fails is shown only with its messages or its status.
    CHECK((outcome.status <= 1 || run.shows_status || !outcome.messages.empty()));
    CHECK(!run.lines.empty());
    CHECK(first_line_missing(run.lines, outcome.shown) == "");
  }
}

}  // namespace leat::tests
