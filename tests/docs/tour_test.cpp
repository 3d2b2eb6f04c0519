// networks-demo/README.md: the tour leads through every demo farm, its output and its pictures are
// what leat makes. LEAT_REFRESH=1 draws the pictures anew.
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/docs/shown_runs.h"

namespace leat::tests {

namespace {

namespace fs = std::filesystem;

const std::string tour_page = "networks-demo/README.md";

fs::path demo_folder() {
  return fs::path(LEAT_SOURCE_DIR) / "networks-demo";
}

/// The picture a shown command draws, "" where it draws none.
std::string picture_of(const ShownRun& run) {
  const auto flag = std::find(run.words.begin(), run.words.end(), "-o");
  const bool draws =
      flag != run.words.end() && flag + 1 != run.words.end() && (flag + 1)->ends_with(".svg");
  return draws ? *(flag + 1) : "";
}

/// What stands in a picture whatever the machine's fonts: the words of all its texts and titles, in
/// order of the alphabet, since boxes may change places.
std::vector<std::string> words_in(const std::string& svg) {
  std::vector<std::string> words;
  for (const std::string tag : {"text", "title"}) {
    const std::string close = "</" + tag + ">";
    for (std::size_t at = svg.find("<" + tag); at != std::string::npos;
         at = svg.find("<" + tag, at + 1)) {
      const std::size_t end = svg.find(close, at);
      std::string inner;
      bool inside = false;
      for (const char letter : svg.substr(at, end - at)) {
        inside = letter == '<' || (inside && letter != '>');
        if (!inside && letter != '>' && letter != '\n' && letter != '\t') {
          inner += letter;
        }
      }
      words.push_back(inner);
    }
  }
  std::sort(words.begin(), words.end());
  return words;
}

std::size_t count_of(const std::string& svg, const std::string& what) {
  std::size_t count = 0;
  for (std::size_t at = svg.find(what); at != std::string::npos; at = svg.find(what, at + 1)) {
    ++count;
  }
  return count;
}

std::string content_of(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

}  // namespace

TEST_CASE("what the tour shows of leat is what leat prints", "[golden]") {
  check_shown_runs(tour_page);
}

TEST_CASE("the tour tells of every demo farm, and its index lists each once", "[golden]") {
  const std::string text = document(tour_page);
  const std::size_t index = text.find("## All farms");
  REQUIRE(index != std::string::npos);
  std::vector<std::string> listed;
  for (const std::vector<std::string>& row : table_rows(text.substr(index))) {
    listed.push_back(names_in_cell(row.at(0)).at(0));
  }
  std::vector<std::string> there;
  for (const fs::directory_entry& entry : fs::directory_iterator(demo_folder())) {
    if (entry.path().extension() == ".yaml") {
      there.push_back(entry.path().filename().string());
    }
  }
  std::sort(there.begin(), there.end());
  CHECK(listed == there);
  for (const std::string& farm : there) {
    CAPTURE(farm);
    CHECK(text.substr(0, index).find("networks-demo/" + farm) != std::string::npos);
  }
}

TEST_CASE("the pictures of the tour are what leat draws", "[golden][pictures]") {
  const std::string text = document(tour_page);
  const ExampleFolder folder(text);
  const bool refresh = std::getenv("LEAT_REFRESH") != nullptr;
  std::set<std::string> drawn;
  for (const ShownRun& run : shown_runs(text)) {
    const std::string name = picture_of(run);
    if (name.empty()) {
      continue;
    }
    CAPTURE(name);
    CHECK(outcome_of(run).status <= 1);
    CHECK(text.find("](pictures/" + name + ")") != std::string::npos);
    const std::string now = folder.files().content(name);
    const fs::path kept = demo_folder() / "pictures" / name;
    if (refresh) {
      std::ofstream(kept, std::ios::binary) << now;
    }
    const std::string before = content_of(kept);
    REQUIRE(!before.empty());
    CHECK(words_in(before) == words_in(now));
    CHECK(words_in(now).size() > 10);
    // A place or pipe of a schematic is a group of its kind.
    CHECK(count_of(before, "class=\"node\"") == count_of(now, "class=\"node\""));
    CHECK(count_of(before, "class=\"edge\"") == count_of(now, "class=\"edge\""));
    drawn.insert(name);
  }
  for (const fs::directory_entry& entry : fs::directory_iterator(demo_folder() / "pictures")) {
    CAPTURE(entry.path());
    CHECK(drawn.contains(entry.path().filename().string()));
  }
  CHECK(drawn.size() > 10);
}

TEST_CASE("the comparison of pictures sees a changed word and bears a moved box", "[golden]") {
  const std::string one = "<svg><text x=\"1\">5 <tspan>gal</tspan></text><title>a</title></svg>";
  const std::string moved = "<svg><title>a</title><text x=\"9\">5 <tspan>gal</tspan></text></svg>";
  const std::string changed =
      "<svg><text x=\"1\">6 <tspan>gal</tspan></text><title>a</title></svg>";
  CHECK(words_in(one) == std::vector<std::string>{"5 gal", "a"});
  CHECK(words_in(one) == words_in(moved));
  CHECK(words_in(one) != words_in(changed));
}

}  // namespace leat::tests
