// README.md shows real output: every `$ leat ...` in it is run and compared.
#include <filesystem>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/docs/shown_runs.h"

namespace leat::tests {

TEST_CASE("what README.md shows of leat is what leat prints", "[golden]") {
  const std::string text = document("README.md");
  const ExampleFolder folder(text);
  const std::vector<ShownRun> runs = shown_runs(text);
  REQUIRE(runs.size() >= 2);
  for (const ShownRun& run : runs) {
    REQUIRE(run.words.size() >= 2);
    CAPTURE(run.words);
    const RunOutcome outcome = outcome_of(run);
    CHECK((outcome.status == 0 || outcome.status == 1));
    CHECK(outcome.messages.empty());
    CHECK(run.lines.size() > 5);
    CHECK(first_line_missing(run.lines, outcome.shown) == "");
  }
}

TEST_CASE("the comparison with a document sees a line that leat does not print", "[golden]") {
  const std::string output = "one\n\ntwo\nthree and four\n";
  CHECK(first_line_missing({"one", "", "two", "three and four"}, output) == "");
  CHECK(first_line_missing({"one", "...", "three and four", ""}, output) == "");
  CHECK(first_line_missing({"one", "..."}, output) == "");
  CHECK(first_line_missing({"...", "three ..."}, output) == "");
  CHECK(first_line_missing({"...", "three or ..."}, output) == "three or ...");
  CHECK(first_line_missing({"one", "two"}, output) == "two");
  CHECK(first_line_missing({"one", "...", "five"}, output) == "five");
  CHECK(first_line_missing({"one", "", "two"}, output) == "(the end)");
  const std::string figures = "head 6.045086914313492, 18.7\n";
  CHECK(first_line_missing({"head 6.045087, 18.7"}, figures) == "");
  CHECK(first_line_missing({"head 6.045087, ..."}, figures) == "");
  CHECK(first_line_missing({"head 6.045, 18.7"}, figures) != "");
  CHECK(first_line_missing({"head 6.045087, 18.70001"}, figures) != "");
  CHECK(first_line_missing({"head 6.045087, 19 ..."}, figures) != "");
}

TEST_CASE("a command of a document is split as a shell splits it", "[golden]") {
  const std::vector<ShownRun> runs =
      shown_runs("```text\n$ leat profile a.yaml \"one two\"; echo $?\nx\n```\n");
  REQUIRE(runs.size() == 1);
  CHECK(runs[0].words == std::vector<std::string>{"profile", "a.yaml", "one two"});
  CHECK(runs[0].shows_status);
  CHECK(runs[0].lines == std::vector<std::string>{"x"});
}

TEST_CASE("every file the documents point to is there", "[golden]") {
  for (const std::string name : {"README.md",
                                 "DEVELOPERS.md",
                                 "model/FORMAT.md",
                                 "solver/METHOD.md",
                                 "render/OUTPUT.md",
                                 "networks-demo/README.md",
                                 "tests/README.md"}) {
    const std::string text = document(name);
    const std::filesystem::path folder =
        (std::filesystem::path(LEAT_SOURCE_DIR) / name).parent_path();
    for (std::size_t at = text.find("]("); at != std::string::npos; at = text.find("](", at + 1)) {
      const std::string file = text.substr(at + 2, text.find(')', at) - at - 2);
      CAPTURE(name, file);
      // Not a link: a place inside the page, or a formula.
      if (!file.starts_with("#")) {
        CHECK(std::filesystem::exists(folder / file.substr(0, file.find('#'))));
      }
    }
  }
}

}  // namespace leat::tests
