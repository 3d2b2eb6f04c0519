// The tables of keys in render/OUTPUT.md are those the columns give. LEAT_REFRESH=1 writes them
// anew.
#include "render/commands/key_tables.h"

#include <cstdlib>
#include <fstream>
#include <set>
#include <string>

#include <catch2/catch.hpp>

#include "tests/docs/document.h"

namespace leat::tests {

namespace {

const std::string output_page = "render/OUTPUT.md";
const std::string end_mark = "<!-- end of keys -->\n";

std::string begin_mark(const std::string& name) {
  return "<!-- keys: " + name + " -->\n";
}

/// The page with that table between its marks.
std::string with_table(const std::string& page, const render::KeyTable& table) {
  const std::string mark = begin_mark(table.mark);
  const std::size_t begin = page.find(mark);
  INFO("the mark of '" << table.mark << "'");
  REQUIRE(begin != std::string::npos);
  CHECK(page.find(mark, begin + 1) == std::string::npos);
  const std::size_t end = page.find(end_mark, begin);
  REQUIRE(end != std::string::npos);
  return page.substr(0, begin) + mark + table.text + page.substr(end);
}

}  // namespace

TEST_CASE("the tables of keys in OUTPUT.md are those the columns give") {
  std::string page = document(output_page);
  std::set<std::string> marks;
  for (const render::KeyTable& table : render::key_tables()) {
    CHECK(marks.insert(table.mark).second);
    page = with_table(page, table);
  }
  if (std::getenv("LEAT_REFRESH") != nullptr) {
    std::ofstream(std::string(LEAT_SOURCE_DIR) + "/" + output_page, std::ios::binary) << page;
  }
  CHECK(page == document(output_page));
}

TEST_CASE("no mark of a table of keys in OUTPUT.md is without its columns") {
  std::set<std::string> marks;
  for (const render::KeyTable& table : render::key_tables()) {
    marks.insert(begin_mark(table.mark));
  }
  std::size_t found = 0;
  for (const std::string& line : lines_of(document(output_page))) {
    if (line.starts_with("<!-- keys: ")) {
      CAPTURE(line);
      CHECK(marks.contains(line + "\n"));
      ++found;
    }
  }
  CHECK(found == marks.size());
}

TEST_CASE("no key of a table in OUTPUT.md is without a sentence") {
  for (const render::KeyTable& table : render::key_tables()) {
    CAPTURE(table.mark);
    CHECK(table.text.find("|  |") == std::string::npos);
  }
}

}  // namespace leat::tests
