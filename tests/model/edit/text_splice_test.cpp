#include "model/edit/text_splice.h"

#include <catch2/catch.hpp>

namespace leat::model {

namespace {

std::string spliced(const std::string& source, const std::vector<TextEdit>& edits) {
  const auto made = spliced_text(source, "farm.yaml", edits);
  const auto* const problem = std::get_if<Diagnostic>(&made);
  return problem == nullptr ? std::get<std::string>(made) : "refused: " + problem->code;
}

const std::string farm =
    "farm: Alder Hollow  # the low one\n"
    "springs:\n"
    "  upper:   # dug 1950\n"
    "    overflow: 131.5 ft\n"
    "    yield: {Apr: 9 gal/min, Aug: \"0.9 gal/min\"}  # by bucket\n"
    "\n"
    "# the pipes\n"
    "pipes:\n"
    "  main: {from: upper, to: north, valve: {type: gate, open: 3/8, at: end}}\n"
    "  side:\n"
    "    size: 1 in SIDR 15\n"
    "    fittings: [strainer, 2 elbow]\n"
    "# end\n";

std::string with(const std::string& old, const std::string& now) {
  std::string text = farm;
  return text.replace(text.find(old), old.size(), now);
}

}  // namespace

TEST_CASE("a turned valve changes its own bytes and no others") {
  CHECK(spliced(farm, {{{"pipes", "main", "valve", "open"}, "1/8"}}) == with("3/8", "1/8"));
  CHECK(spliced(farm, {{{"springs", "upper", "yield", "Aug"}, "2 L/min"}}) ==
        with("\"0.9 gal/min\"", "2 L/min"));
  CHECK(spliced(farm, {{{"springs", "upper", "overflow"}, "-3 ft"}}) ==
        with("131.5 ft", "\"-3 ft\""));
  CHECK(spliced(farm, {{{"pipes", "side", "fittings", "1"}, "4 elbow"}}) ==
        with("2 elbow", "4 elbow"));
}

TEST_CASE("a whole list or map gives way to a value, the remark behind it stays") {
  CHECK(spliced(farm, {{{"springs", "upper", "yield"}, "5 gal/min"}}) ==
        with("{Apr: 9 gal/min, Aug: \"0.9 gal/min\"}", "5 gal/min"));
}

TEST_CASE("a key the file does not hold is added at the end of its map in the map's style") {
  CHECK(spliced(farm, {{{"springs", "upper", "yield", "Jul"}, "2 gal/min"}}) ==
        with("0.9 gal/min\"}", "0.9 gal/min\", Jul: 2 gal/min}"));
  CHECK(spliced(farm, {{{"pipes", "side", "lies"}, "sun"}}) ==
        with("2 elbow]\n", "2 elbow]\n    lies: sun\n"));
  CHECK(spliced(farm, {{{"springs", "upper", "intake"}, "130 ft"}}) ==
        with("# by bucket\n", "# by bucket\n    intake: 130 ft\n"));
  CHECK(spliced(farm,
                {{{"pipes", "side", "valve", "type"}, "ball"},
                 {{"pipes", "side", "valve", "open"}, "1"}}) ==
        with("2 elbow]\n", "2 elbow]\n    valve: {type: ball, open: 1}\n"));
  CHECK(spliced("farm: x", {{{"show"}, "US"}}) == "farm: x\nshow: US");
}

TEST_CASE("a key taken out leaves its neighbours and their remarks") {
  CHECK(spliced(farm, {{{"pipes", "main", "valve", "open"}, std::nullopt}}) ==
        with("open: 3/8, ", ""));
  CHECK(spliced(farm, {{{"pipes", "main", "valve", "at"}, std::nullopt}}) == with(", at: end", ""));
  CHECK(spliced(farm, {{{"pipes", "side", "size"}, std::nullopt}}) ==
        with("    size: 1 in SIDR 15\n", ""));
  CHECK(spliced(farm, {{{"pipes", "side", "lies"}, std::nullopt}}) == farm);
}

TEST_CASE("what was added and taken out again leaves the file as it was") {
  CHECK(spliced(farm,
                {{{"pipes", "main", "valve", "open"}, std::nullopt},
                 {{"pipes", "main", "valve", "shut"}, "yes"},
                 {{"pipes", "main", "valve", "shut"}, std::nullopt},
                 {{"pipes", "main", "valve", "open"}, "3/8"}}) ==
        with("open: 3/8, at: end", "at: end, open: 3/8"));
}

TEST_CASE("line ends of other systems, a mark at the file's beginning and other letters hold") {
  CHECK(spliced("a: {x: 1 m}\r\nb:\r\n  c: 2 m\r\n", {{{"b", "d"}, "3 m"}}) ==
        "a: {x: 1 m}\r\nb:\r\n  c: 2 m\r\n  d: 3 m\r\n");
  CHECK(spliced("\xEF\xBB\xBF"
                "a: 1 m\n",
                {{{"a"}, "2 m"}}) ==
        "\xEF\xBB\xBF"
        "a: 2 m\n");
  CHECK(spliced("a: {Br\xC3\xBC"
                "hl: 1 m, b: 2 m}\n",
                {{{"a", "b"}, "3 m"}}) ==
        "a: {Br\xC3\xBC"
        "hl: 1 m, b: 3 m}\n");
}

TEST_CASE("a value that cannot be replaced byte for byte is refused, not guessed") {
  CHECK(spliced("a: |\n  long\n  text\n", {{{"a"}, "b"}}) == "refused: cannot-splice");
  CHECK(spliced("a: long\n  text\n", {{{"a"}, "b"}}) == "refused: cannot-splice");
  CHECK(spliced("a: 112 ft\n", {{{"a", "leaks"}, "yes"}}) == "refused: cannot-splice");
  CHECK(spliced("a:\n", {{{"a", "leaks"}, "yes"}}) == "refused: cannot-splice");
  CHECK(spliced("a:\n  b: 1\n", {{{"a", "b"}, std::nullopt}}) == "refused: cannot-splice");
  CHECK(spliced("a: 1 m\n", {{{"a"}, "two\nlines"}}) == "refused: cannot-splice");
  CHECK(spliced("a: 1 m\n", {{{"a"}, "null"}}) == "refused: cannot-splice");
  CHECK(spliced("a: [1 m]\n", {{{"a", "7"}, "2 m"}}) == "refused: cannot-splice");
  CHECK(spliced("a: 1 m\n", {{{}, "2 m"}}) == "refused: cannot-splice");
}

}  // namespace leat::model
