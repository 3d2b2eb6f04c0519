// README.md shows real output: every `$ leat ...` in it is run and compared.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "render/run.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

constexpr const char* name_of_the_readme_farm = "my-farm.yaml";

std::string readme() {
  std::ifstream stream(std::string(LEAT_SOURCE_DIR) + "/README.md", std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) {
    lines.push_back(line);
  }
  return lines;
}

bool starts_with(const std::string& line, const std::string& start) {
  return line.compare(0, start.size(), start) == 0;
}

/// The lines of the first fenced block of a kind.
std::string first_block(const std::string& kind) {
  std::string block;
  bool inside = false;
  for (const std::string& line : lines_of(readme())) {
    if (inside && starts_with(line, "```")) {
      return block;
    }
    if (inside) {
      block += line + "\n";
    }
    inside = inside || line == "```" + kind;
  }
  return block;
}

/// A leat command that README.md shows, and the lines shown under it.
struct ShownRun {
  std::vector<std::string> words;
  std::vector<std::string> lines;
};

std::vector<ShownRun> shown_runs() {
  const std::string prompt = "$ leat ";
  std::vector<ShownRun> runs;
  bool under_a_command = false;
  for (const std::string& line : lines_of(readme())) {
    if (starts_with(line, prompt)) {
      std::istringstream words(line.substr(prompt.size()));
      runs.push_back({{std::istream_iterator<std::string>(words), {}}, {}});
      under_a_command = true;
    } else if (starts_with(line, "```") || starts_with(line, "The schematics are in ")) {
      under_a_command = false;  // what the script `demo` says itself is not leat's
    } else if (under_a_command) {
      runs.back().lines.push_back(line);
    }
  }
  return runs;
}

/// The file a command of README.md means: the farm of README.md itself, or one of the repository's.
std::string file_of(const std::string& word, const TemporaryFolder& folder) {
  if (word == name_of_the_readme_farm) {
    return folder.file(word);
  }
  const std::filesystem::path file = std::filesystem::path(LEAT_SOURCE_DIR) / word;
  return std::filesystem::exists(file) ? file.string() : word;
}

/// The first shown line that the output does not have where it should; empty when all are there.
/// `...` stands for lines left out, and a blank line may stand at the end of what is shown.
std::string first_line_missing(const ShownRun& shown, const std::string& output) {
  const std::vector<std::string> real = lines_of(output);
  std::size_t at = 0;
  bool may_skip = false;
  for (std::size_t i = 0; i < shown.lines.size(); ++i) {
    const std::string& line = shown.lines[i];
    if (line == "...") {
      may_skip = true;
      continue;
    }
    while (may_skip && at < real.size() && real[at] != line) {
      ++at;
    }
    may_skip = false;
    if (at < real.size() && real[at] == line) {
      ++at;
    } else if (!line.empty() || i + 1 < shown.lines.size()) {
      return line.empty() ? "(a blank line)" : line;
    }
  }
  const bool all_shown = at == real.size() || (!shown.lines.empty() && shown.lines.back() == "...");
  return all_shown ? "" : "(the end)";
}

}  // namespace

TEST_CASE("what README.md shows of leat is what leat prints", "[golden]") {
  const TemporaryFolder folder;
  folder.write(name_of_the_readme_farm, first_block("yaml"));
  const std::vector<ShownRun> runs = shown_runs();
  REQUIRE(runs.size() >= 2);
  for (const ShownRun& shown : runs) {
    REQUIRE(shown.words.size() >= 2);
    CAPTURE(shown.words);
    std::vector<std::string> words;
    for (const std::string& word : shown.words) {
      words.push_back(file_of(word, folder));
    }
    std::ostringstream out;
    std::ostringstream err;
    const int status = run(words, out, err, Terminal{});
    CHECK((status == 0 || status == 1));
    CHECK(err.str().empty());
    CHECK(shown.lines.size() > 5);
    CHECK(first_line_missing(shown, out.str()) == "");
  }
}

TEST_CASE("the comparison with README.md sees a line that leat does not print", "[golden]") {
  const std::string output = "one\n\ntwo\nthree\n";
  CHECK(first_line_missing({{}, {"one", "", "two", "three"}}, output) == "");
  CHECK(first_line_missing({{}, {"one", "...", "three", ""}}, output) == "");
  CHECK(first_line_missing({{}, {"one", "..."}}, output) == "");
  CHECK(first_line_missing({{}, {"one", "two"}}, output) == "two");
  CHECK(first_line_missing({{}, {"one", "...", "four"}}, output) == "four");
  CHECK(first_line_missing({{}, {"one", "", "two"}}, output) == "(the end)");
}

TEST_CASE("every file README.md points to is there", "[golden]") {
  const std::string text = readme();
  std::size_t count = 0;
  for (std::size_t at = text.find("]("); at != std::string::npos; at = text.find("](", at + 1)) {
    const std::string file = text.substr(at + 2, text.find(')', at) - at - 2);
    CAPTURE(file);
    CHECK(std::filesystem::exists(std::filesystem::path(LEAT_SOURCE_DIR) / file));
    ++count;
  }
  CHECK(count > 0);
}

}  // namespace leat::render
