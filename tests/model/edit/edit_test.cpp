#include "model/edit/edit.h"

#include <catch2/catch.hpp>

namespace leat::model {

namespace {

std::string edited(const std::string& source, const std::vector<Edit>& edits) {
  const auto made = edited_text(source, "farm.yaml", edits);
  const auto* const problem = std::get_if<Diagnostic>(&made);
  return problem == nullptr ? std::get<std::string>(made) : "refused: " + problem->code;
}

std::string spliced(const std::string& source, const std::vector<TextEdit>& edits) {
  return edited(source, {edits.begin(), edits.end()});
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

TEST_CASE("a key or an item is put before the first or behind the last, in the style there is") {
  using Where = InsertEdit::Where;
  CHECK(edited(farm, {InsertEdit{{"pipes", "side"}, "lies", "sun", Where::First}}) ==
        with("    size: 1 in", "    lies: sun\n    size: 1 in"));
  CHECK(edited(farm, {InsertEdit{{"pipes", "side"}, "path", "[0 ft: 3 ft]", Where::Last}}) ==
        with("2 elbow]\n", "2 elbow]\n    path: [0 ft: 3 ft]\n"));
  CHECK(edited(farm, {InsertEdit{{"pipes", "main"}, "size", "1 in SIDR 15", Where::First}}) ==
        with("{from: upper", "{size: 1 in SIDR 15, from: upper"));
  CHECK(edited(farm,
               {InsertEdit{{"pipes", "side", "fittings"}, "", "{k 0.9: start}", Where::First}}) ==
        with("[strainer", "[{k 0.9: start}, strainer"));
  CHECK(edited(farm, {InsertEdit{{"pipes", "side", "fittings"}, "", "tee", Where::Last}}) ==
        with("2 elbow]", "2 elbow, tee]"));
  const std::string list = "measured:\n  - {at: a}  # by eye\n  - {at: b}\nfarm: x\n";
  CHECK(edited(list, {InsertEdit{{"measured"}, "", "{at: c}", Where::First}}) ==
        "measured:\n  - {at: c}\n  - {at: a}  # by eye\n  - {at: b}\nfarm: x\n");
  CHECK(edited(list, {InsertEdit{{"measured"}, "", "{at: c}", Where::Last}}) ==
        "measured:\n  - {at: a}  # by eye\n  - {at: b}\n  - {at: c}\nfarm: x\n");
}

TEST_CASE("what is there already, or is no value, is not inserted") {
  CHECK(edited(farm, {InsertEdit{{"pipes", "side"}, "size", "2 in"}}) == "refused: cannot-splice");
  CHECK(edited(farm, {InsertEdit{{"pipes", "side"}, "lies", "sun\n    x: y"}}) ==
        "refused: cannot-splice");
  CHECK(edited(farm, {InsertEdit{{"pipes", "nobody"}, "lies", "sun"}}) == "refused: cannot-splice");
  CHECK(edited(farm, {InsertEdit{{"pipes", "side"}, "", "sun"}}) == "refused: cannot-splice");
}

TEST_CASE("a key gets another name and the remark beside it stays") {
  CHECK(edited(farm, {RenameEdit{{"springs", "upper"}, "top"}}) == with("  upper:", "  top:"));
  CHECK(edited(farm, {RenameEdit{{"springs", "upper"}, "a: b"}}) ==
        with("  upper:", "  \"a: b\":"));
  CHECK(edited("\"a b\": 1  # one\n", {RenameEdit{{"a b"}, "c"}}) == "c: 1  # one\n");
  CHECK(edited(farm, {RenameEdit{{"pipes", "main"}, "side"}}) == "refused: cannot-splice");
  CHECK(edited(farm, {RenameEdit{{"pipes", "nobody"}, "x"}}) == "refused: cannot-splice");
}

TEST_CASE("an entry moves with the remarks beside and above it") {
  const std::string text =
      "tees:\n"
      "  fork: 10 m  # by the oak\n"
      "  # the low one\n"
      "  # of two\n"
      "  low:\n"
      "    level: 8 m  # deep\n"
      "  high: 12 m\n"
      "# the rest\n"
      "farm: x\n";
  CHECK(edited(text, {MoveEdit{{"tees", "low"}, "fork"}}) ==
        "tees:\n"
        "  # the low one\n"
        "  # of two\n"
        "  low:\n"
        "    level: 8 m  # deep\n"
        "  fork: 10 m  # by the oak\n"
        "  high: 12 m\n"
        "# the rest\n"
        "farm: x\n");
  CHECK(edited(text, {MoveEdit{{"tees", "fork"}, ""}}) ==
        "tees:\n"
        "  # the low one\n"
        "  # of two\n"
        "  low:\n"
        "    level: 8 m  # deep\n"
        "  high: 12 m\n"
        "  fork: 10 m  # by the oak\n"
        "# the rest\n"
        "farm: x\n");
  CHECK(edited(text, {MoveEdit{{"tees", "fork"}, "low"}}) == text);
  CHECK(edited(text, {MoveEdit{{"tees", "high"}, "low"}, MoveEdit{{"tees", "high"}, ""}}) == text);
  CHECK(edited(text, {MoveEdit{{"tees", "low"}, "nobody"}}) == "refused: cannot-splice");
  CHECK(edited(text, {MoveEdit{{"tees", "low"}, "low"}}) == "refused: cannot-splice");
  CHECK(edited("tees: {a: 1 m, b: 2 m}\n", {MoveEdit{{"tees", "b"}, "a"}}) ==
        "refused: cannot-splice");
  CHECK(edited("tees:\n  a: 1 m\n  b: 2 m", {MoveEdit{{"tees", "a"}, ""}}) ==
        "tees:\n  b: 2 m\n  a: 1 m\n");
}

TEST_CASE("what names a place follows it to its new name") {
  const std::string text =
      "springs:\n"
      "  top: {overflow: 30 m, yield: 9 L/min}  # dug 1950\n"
      "troughs:\n"
      "  north: {float: 12 m}\n"
      "pipes:\n"
      "  main: {from: top, to: north, size: 25 mm PE100 SDR 11, length: 100 m}  # top to north\n"
      "  north line: {from: top, to: north}\n"
      "pumps:\n"
      "  p: {from: top, to: north}\n"
      "rams:\n"
      "  r: {drive: main, delivery: north line}\n"
      "measured:\n"
      "  - {at: north, flow: 2 L/min}\n"
      "  - {at: main, flow: 2 L/min}\n"
      "breaks: {north: 2026-08-20}\n";
  std::string renamed = text;
  const auto put = [&renamed](const std::string& old, const std::string& now) {
    for (std::size_t at = renamed.find(old); at != std::string::npos;
         at = renamed.find(old, at + now.size())) {
      renamed.replace(at, old.size(), now);
    }
  };
  put("  north: {float", "  far: {float");
  put("to: north", "to: far");
  put("at: north", "at: far");
  put("{north: 2026", "{far: 2026");
  CHECK(edited(text, renaming(text, "troughs", "north", "far")) == renamed);

  renamed = text;
  put("  main: {", "  trunk: {");
  put("drive: main", "drive: trunk");
  put("at: main", "at: trunk");
  CHECK(edited(text, renaming(text, "pipes", "main", "trunk")) == renamed);

  CHECK(renaming(text, "troughs", "nobody", "far").empty());
  CHECK(renaming(text, "tees", "north", "far").empty());
}

TEST_CASE("a place that shares its name with a pipe leaves what was measured at the pipe") {
  const std::string text =
      "troughs:\n  north: {float: 12 m}\n"
      "pipes:\n  north: {from: top, to: north}\n"
      "measured:\n  - {at: north, flow: 2 L/min}\n";
  CHECK(edited(text, renaming(text, "troughs", "north", "far")) ==
        "troughs:\n  far: {float: 12 m}\n"
        "pipes:\n  north: {from: top, to: far}\n"
        "measured:\n  - {at: north, flow: 2 L/min}\n");
}

}  // namespace leat::model
