// What is made of the rows of the keys: the schema and FORMAT.md's tables. LEAT_REFRESH=1 writes
// both anew.
#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "model/keys/farm_keys.h"
#include "model/keys/format_table.h"
#include "model/keys/schema.h"

namespace leat::tests {
namespace {

using model::KeyRow;
using model::KeyTable;

const std::string repository = LEAT_SOURCE_DIR;

std::string text_of(const std::string& path) {
  const std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// Compares a file with what is made of the rows; in a refresh the file becomes that.
void check_made(const std::string& path, const std::string& made) {
  if (std::getenv("LEAT_REFRESH") != nullptr) {
    std::ofstream(path, std::ios::binary) << made;
  }
  const std::string written = text_of(path);
  const auto differs = std::mismatch(written.begin(), written.end(), made.begin(), made.end());
  CAPTURE(path, std::string(differs.second, made.end()).substr(0, 300));
  CHECK(written == made);
}

/// Every row of a table and of the maps below it.
void each_row(const KeyTable& table, const std::function<void(const KeyRow&)>& look) {
  for (const KeyRow& row : table.rows()) {
    look(row);
    if (row.kind.keys != nullptr) {
      each_row(*row.kind.keys, look);
    }
  }
}

}  // namespace

TEST_CASE("the schema in the tree is the one made of the keys' rows", "[golden]") {
  check_made(repository + "/model/keys/farm.schema.json", model::farm_schema());
}

TEST_CASE("FORMAT.md's tables of keys are those made of the keys' rows", "[golden]") {
  const std::string path = repository + "/model/FORMAT.md";
  check_made(path, model::with_format_tables(text_of(path)));
}

TEST_CASE("every key has a sentence, and a row of FORMAT.md of its own or shared") {
  int rows = 0;
  each_row(model::farm_keys(), [&rows](const KeyRow& row) {
    CAPTURE(row.name);
    CHECK(row.words.sentence.ends_with('.'));
    ++rows;
  });
  CHECK(rows > 130);
  for (const model::FormatTable& table : model::format_tables()) {
    CAPTURE(table.mark);
    CHECK_FALSE(table.keys.rows().front().words.told.empty());
  }
}

TEST_CASE("a mark without a table, and a table without marks, are faults") {
  CHECK_THROWS_AS(model::with_format_tables("no marks at all\n"), std::invalid_argument);
  const std::string page = text_of(repository + "/model/FORMAT.md");
  CHECK_THROWS_AS(model::with_format_tables(page + "<!-- keys: well -->\n<!-- end of keys -->\n"),
                  std::invalid_argument);
}

TEST_CASE("a path in the file leads to the row of its last key") {
  const auto name_at = [](const std::vector<std::string>& path) {
    const KeyRow* const row = model::key_row(path);
    return row == nullptr ? std::string("none") : std::string(row->name);
  };
  CHECK(name_at({"show"}) == "show");
  CHECK(name_at({"site", "water"}) == "water");
  CHECK(name_at({"outlets", "garden", "household"}) == "household");
  CHECK(name_at({"pipes", "main", "valve", "type"}) == "type");
  CHECK(name_at({"pipes", "main", "vents", "0", "top"}) == "top");
  CHECK(name_at({"ponds", "old", "shape", "sides"}) == "sides");
  CHECK(name_at({"measured", "3", "with"}) == "with");
  CHECK(name_at({"springs"}) == "springs");
  CHECK(name_at({"springs", "yield"}) == "none");                  // a spring of that name
  CHECK(name_at({"springs", "upper", "yield", "Aug"}) == "none");  // a month
  CHECK(name_at({"pipes", "main", "vents", "0"}) == "none");
  CHECK(name_at({"pipes", "main", "colour"}) == "none");
  CHECK(name_at({}) == "none");
}

}  // namespace leat::tests
