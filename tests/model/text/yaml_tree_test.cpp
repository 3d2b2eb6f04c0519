#include "model/text/yaml_tree.h"

#include <chrono>
#include <string>

#include <catch2/catch.hpp>

#include "model/text/text_scan.h"

namespace {

using namespace leat::model;

struct ReadTree {
  YamlNode root;
  std::vector<Diagnostic> problems;
};

ReadTree read(const std::string& text) {
  ProblemList problems("farm.yaml");
  YamlNode root = read_yaml(text, problems);
  return ReadTree{std::move(root), problems.sorted()};
}

std::string only_code(const std::string& text) {
  const ReadTree tree = read(text);
  return tree.problems.size() == 1 ? tree.problems.front().code
                                   : std::to_string(tree.problems.size()) + " problems";
}

std::string repeated(const std::string& part, int times) {
  std::string text;
  for (int i = 0; i < times; ++i) {
    text += part;
  }
  return text;
}

double seconds_to_read(const std::string& text) {
  const auto start = std::chrono::steady_clock::now();
  (void)read(text);
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

}  // namespace

TEST_CASE("Keys and values carry the place where they stand") {
  const ReadTree tree = read("farm: Test\ntees:\n  gate tee: {elevation: 4 m}\n");
  REQUIRE(tree.problems.empty());
  REQUIRE(tree.root.entries.size() == 2);
  CHECK(tree.root.entries[0].position == SourcePosition{1, 1});
  CHECK(tree.root.entries[0].value.position == SourcePosition{1, 7});
  const YamlEntry& tee = tree.root.entries[1].value.entries.at(0);
  CHECK(tee.key == "gate tee");
  CHECK(tee.position == SourcePosition{3, 3});
  CHECK(tee.value.entries.at(0).value.text == "4 m");
  CHECK(tee.value.entries.at(0).value.position == SourcePosition{3, 25});
}

TEST_CASE("Columns count characters, not bytes") {
  const ReadTree tree = read("{täe: 1 m, ö: 2 m}\n");
  REQUIRE(tree.root.entries.size() == 2);
  CHECK(tree.root.entries[1].position == SourcePosition{1, 12});
  CHECK(tree.root.entries[1].value.position == SourcePosition{1, 15});
}

TEST_CASE("A byte order mark and Windows line ends are taken as they come") {
  const ReadTree tree = read(
      "\xEF\xBB\xBF"
      "farm: Test\r\nshow: US\r\n");
  REQUIRE(tree.problems.empty());
  CHECK(tree.root.entries.at(0).position == SourcePosition{1, 1});
  CHECK(tree.root.entries.at(1).value.text == "US");
}

TEST_CASE("Numbers, words and quoted texts are all texts") {
  const ReadTree tree = read("a: 010\nb: yes\nc: '3'\nd: 1e3\ne: 0x10\n");
  REQUIRE(tree.problems.empty());
  CHECK(tree.root.entries.at(0).value.text == "010");
  CHECK(tree.root.entries.at(1).value.text == "yes");
  CHECK(tree.root.entries.at(2).value.text == "3");
  CHECK(tree.root.entries.at(3).value.text == "1e3");
  CHECK(tree.root.entries.at(4).value.text == "0x10");
}

TEST_CASE("An empty value stands where its key stands") {
  const ReadTree tree = read("a:\n\n\nb: 1\n");
  REQUIRE(tree.root.entries.size() == 2);
  CHECK(tree.root.entries[0].value.kind == YamlNode::Kind::Nothing);
  CHECK(tree.root.entries[0].value.position == SourcePosition{1, 1});
}

TEST_CASE("A document may be opened and closed by its marks") {
  CHECK(read("---\nfarm: Test\n...\n").problems.empty());
  CHECK(read("# a remark\n---\nfarm: Test\n").root.entries.size() == 1);
}

TEST_CASE("Fifty levels of nesting are read and fifty-one refused") {
  CHECK(read(repeated("[", 50) + repeated("]", 50)).problems.empty());
  CHECK(only_code(repeated("[", 51) + repeated("]", 51)) == "too-deep");
  CHECK(read(repeated("- ", 50) + "1\n").problems.empty());
  CHECK(only_code(repeated("- ", 51) + "1\n") == "too-deep");
  // Each '? ' also opens a map where a key should stand, which is told as well.
  const std::vector<Diagnostic> keys = read(repeated("? ", 51) + "1\n").problems;
  CHECK(keys.back().code == "too-deep");
}

TEST_CASE("Brackets in quotes, remarks and plain words nest nothing") {
  const std::string brackets = repeated("[{", 60);
  CHECK(read("farm: '" + brackets + "'\n").problems.empty());
  CHECK(read("farm: \"" + brackets + "\\\"" + brackets + "\"\n").problems.empty());
  CHECK(read("farm: Test # " + brackets + "\n").problems.empty());
  CHECK(read("farm: the " + brackets + "\n").problems.empty());
  CHECK(read("farm: the neighbour's\ndatum: it's " + brackets + "\n").problems.empty());
}

TEST_CASE("A remark after a value is a remark and a mark inside a word part of it") {
  CHECK(read("farm: Test # the old one\n").problems.empty());
  CHECK(read("farm: Test ## see below\n").problems.empty());
  CHECK(read("farm: a#1\n").root.entries.at(0).value.text == "a#1");
  CHECK(read("#farm: Test\nfarm: Other\n").problems.empty());
  CHECK(only_code("farm: Test #1\n") == "cut-by-hash");
}

TEST_CASE("A text over several lines holds marks and brackets as letters") {
  const ReadTree tree = read("farm: |\n  barn #2 at\n  ['the slab'\n   {\nshow: US\n");
  REQUIRE(tree.problems.empty());
  CHECK(tree.root.entries.at(0).value.text == "barn #2 at\n['the slab'\n {\n");
  CHECK(only_code("farm: |\n  barn #2\ndatum: slab #3\n") == "cut-by-hash");
}

TEST_CASE("A file above the size limit is refused unread", "[slow]") {
  CHECK(only_code("farm: Test #" + std::string(largest_file, 'x')) == "too-large");
}

TEST_CASE("A megabyte of brackets is refused at once") {
  const std::string brackets(1'000'000, '[');
  CHECK(only_code(brackets) == "too-deep");
  CHECK(seconds_to_read(brackets) < 2.0);
  CHECK(only_code(repeated("{a: ", 250'000)) == "too-deep");
}

TEST_CASE("Time to read grows with the file, not with its square", "[slow]") {
  // One line, one map: columns, duplicate keys and look-ups are what could grow faster.
  const auto farm = [](int tees) {
    std::string text = "{tees: {";
    for (int i = 0; i < tees; ++i) {
      text += "tee " + std::to_string(i) + ": 4 m, ";
    }
    return text + "last: 4 m}}";
  };
  const double small = seconds_to_read(farm(5'000));
  const double large = seconds_to_read(farm(100'000));
  CHECK(large < 20.0 * small * 6.0 + 1.0);
}

TEST_CASE("Several faults of one file are all told, in the order of the file") {
  const ReadTree tree = read("a: &x 1\nb: *x\nb: 2\nc: !!int 3\n<<: {d: 1}\n");
  std::vector<std::string> codes;
  for (const Diagnostic& problem : tree.problems) {
    codes.push_back(problem.code);
  }
  CHECK(codes == std::vector<std::string>{"anchor", "anchor", "duplicate-key", "tag", "merge-key"});
  CHECK(tree.root.entries.size() == 3);
}

TEST_CASE("Whatever is told is text: no control characters, no endless sentences") {
  const ReadTree tree = read("\"a\\e[31m\": 1\n\"a\\e[31m\": 2\n");
  REQUIRE(tree.problems.size() == 1);
  CHECK(tree.problems.front().text.find('\x1b') == std::string::npos);
  const std::string key(5000, 'k');
  const ReadTree longer = read("? " + key + "\n: 1\n? " + key + "\n: 2\n");
  REQUIRE(longer.problems.size() == 1);
  CHECK(longer.problems.front().text.size() < 500);
}
