#include "model/text/nearest_word.h"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using namespace leat::model;  // NOLINT(google-build-using-namespace)

TEST_CASE("an edit is a letter put in, left out, changed, or swapped with its neighbour") {
  struct Row {
    std::string a;
    std::string b;
    std::size_t edits;
  };
  const Row row = GENERATE(values<Row>({{"", "", 0},
                                        {"", "tee", 3},
                                        {"spring", "spring", 0},
                                        {"Spring", "sPRING", 0},
                                        {"sprng", "spring", 1},
                                        {"sprring", "spring", 1},
                                        {"sprong", "spring", 1},
                                        {"srping", "spring", 1},
                                        {"creek", "creak", 1},
                                        {"kitten", "sitting", 3},
                                        {"outlet", "trough", 6}}));
  CAPTURE(row.a, row.b);
  CHECK(edit_distance(row.a, row.b) == row.edits);
  CHECK(edit_distance(row.b, row.a) == row.edits);
}

TEST_CASE("a likely slip finds its word and an unlikely one finds none") {
  const std::vector<std::string> keys = {
      "overflow", "intake", "yield", "from", "to", "length", "path", "map", "k"};
  struct Row {
    std::string word;
    std::string nearest;  // empty: none
  };
  const Row row = GENERATE(values<Row>({{"overflwo", "overflow"},
                                        {"Overflow", "overflow"},
                                        {"over flow", "overflow"},
                                        {"lenght", "length"},
                                        {"yeild", "yield"},
                                        {"pth", "path"},
                                        {"form", "from"},
                                        {"mat", "map"},
                                        {"colour", ""},
                                        {"x", ""},
                                        {"", ""},
                                        {"pipe", ""}}));
  CAPTURE(row.word);
  CHECK(nearest_word(row.word, keys).value_or("") == row.nearest);
}

TEST_CASE("of several near words the nearest is named, the first when equal") {
  CHECK(nearest_word("floar", {"floor", "float"}).value_or("") == "floor");
  CHECK(nearest_word("floats", {"floor", "float"}).value_or("") == "float");
  CHECK(nearest_word("to", {}).value_or("none") == "none");
}

TEST_CASE("a word of any length is answered at once") {
  const std::string endless(1000000, 'a');
  CHECK_FALSE(nearest_word(endless, {endless, "float"}).has_value());
}
