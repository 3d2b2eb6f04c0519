#include "render/words/diagnostic_text.h"

#include <string>

#include <catch2/catch.hpp>

namespace {

using leat::model::Diagnostic;
using leat::model::Severity;
using leat::render::diagnostic_text;

Diagnostic problem_at(int line, int column) {
  Diagnostic problem;
  problem.code = "missing-unit";
  problem.file = "farm.yaml";
  problem.position = {line, column};
  problem.text = "'120' has no unit";
  problem.hint = "write 120 ft";
  return problem;
}

/// The caret's line of an excerpt, and the line above it.
struct Excerpt {
  std::string line;
  std::string caret;
};

Excerpt excerpt_of(const std::string& told) {
  const std::size_t first = told.find('\n') + 1;
  const std::size_t second = told.find('\n', first) + 1;
  return {told.substr(first, second - first - 1),
          told.substr(second, told.find('\n', second) - second)};
}

}  // namespace

TEST_CASE("A problem is told with its place, the line, a caret and the hint") {
  CHECK(diagnostic_text(problem_at(2, 9), "farm: Test\nlength: 120\n") ==
        "farm.yaml:2:9: error: '120' has no unit\n"
        "  length: 120\n"
        "          ^\n"
        "hint: write 120 ft\n");
}

TEST_CASE("A problem without a place or a hint is one line") {
  Diagnostic problem = problem_at(0, 0);
  problem.hint.clear();
  CHECK(diagnostic_text(problem, "farm: Test\n") == "farm.yaml: error: '120' has no unit\n");
  problem.severity = Severity::Warning;
  CHECK(diagnostic_text(problem, "") == "farm.yaml: warning: '120' has no unit\n");
}

TEST_CASE("The caret counts characters and shows tabs one column wide") {
  const Excerpt umlauts = excerpt_of(diagnostic_text(problem_at(1, 8), "größe: 120\n"));
  CHECK(umlauts.line == "  größe: 120");
  CHECK(umlauts.caret == "         ^");
  const Excerpt tabs = excerpt_of(diagnostic_text(problem_at(1, 2), "\tlength: 120\r\n"));
  CHECK(tabs.line == "   length: 120");
  CHECK(tabs.caret == "   ^");
}

TEST_CASE("A byte order mark is no column of the first line") {
  const Excerpt shown = excerpt_of(diagnostic_text(problem_at(1, 7),
                                                   "\xEF\xBB\xBF"
                                                   "farm: 1\n"));
  CHECK(shown.line == "  farm: 1");
  CHECK(shown.caret == "        ^");
}

TEST_CASE("A long line is cut around its caret") {
  std::string line(5000, 'a');
  line[2999] = '!';
  const Excerpt shown = excerpt_of(diagnostic_text(problem_at(1, 3000), line));
  CHECK(shown.line.size() == 2 + 3 + 100 + 3);
  CHECK(shown.line.substr(0, 6) == "  ...a");
  CHECK(shown.line.at(shown.caret.size() - 1) == '!');
}

TEST_CASE("Bytes that are no text are shown as such") {
  const Excerpt shown = excerpt_of(diagnostic_text(problem_at(1, 3), "a\xFF\x1B[31m\n"));
  CHECK(shown.line == "  a\xEF\xBF\xBD\xEF\xBF\xBD[31m");
  CHECK(shown.caret == "    ^");
}

TEST_CASE("A place beyond the text is told without a line") {
  CHECK(diagnostic_text(problem_at(9, 1), "farm: Test\n") ==
        "farm.yaml:9:1: error: '120' has no unit\nhint: write 120 ft\n");
}

TEST_CASE("Of very many problems the first hundred are told and the rest counted") {
  leat::model::LoadedFarm loaded;
  loaded.problems.assign(250, problem_at(1, 1));
  loaded.source = "farm: Test\n";
  const std::string told = leat::render::problems_text(loaded);
  CHECK(told.find("and 150 more problems\n") != std::string::npos);
}
