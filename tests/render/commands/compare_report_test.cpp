// `leat compare` as a person and a script see it.
#include "render/commands/compare/compare_report.h"

#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/cli/run.h"
#include "render/document/text_table.h"
#include "tests/render/run_words.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

using OrderedJson = nlohmann::ordered_json;

const std::string before = std::string(LEAT_SOURCE_DIR) + "/networks-demo/17-one-thin-line.yaml";
const std::string after = std::string(LEAT_SOURCE_DIR) + "/networks-demo/18-two-lines.yaml";

std::vector<std::string> keys_of(const OrderedJson& object) {
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) {
    keys.push_back(key);
  }
  return keys;
}

}  // namespace

TEST_CASE("compare's JSON holds the keys of the contract in their order", "[compare]") {
  const Outcome outcome = run_words({"compare", before, after, "--json"});
  CHECK(outcome.status == 1);
  const OrderedJson object = OrderedJson::parse(outcome.out);
  CHECK(keys_of(object) ==
        std::vector<std::string>{"format", "command", "farm", "farms", "differences", "flags"});
  REQUIRE(object["farms"].size() == 2);
  CHECK(keys_of(object["farms"][0]) == std::vector<std::string>{"file",
                                                                "farm",
                                                                "flow_L_s",
                                                                "met",
                                                                "dry_h",
                                                                "energy_kWh",
                                                                "wasted_m3",
                                                                "flags",
                                                                "places",
                                                                "starting",
                                                                "parts"});
  CHECK(object["farm"] == "Skylark Rigg");
  CHECK(object["farms"][0]["met"] < 0.995);
  CHECK(object["farms"][1]["met"] > 0.995);
  CHECK(object["differences"].size() >= 3);
}

TEST_CASE("compare's table and its sentences fit 100 columns with two farms and with six",
          "[compare]") {
  for (const std::size_t count : {2U, 4U, 6U}) {
    std::vector<std::string> words = {"compare"};
    for (std::size_t i = 0; i < count; ++i) {
      words.push_back(i % 2 == 0 ? before : after);
    }
    const Outcome outcome = run_words(words);
    CHECK(outcome.status == 1);
    std::istringstream lines(outcome.out);
    for (std::string line; std::getline(lines, line);) {
      CAPTURE(line);
      CHECK(display_width(line) <= 100);
    }
  }
}

TEST_CASE("compare says in words which trough gains and by how much", "[compare]") {
  const Outcome outcome = run_words({"compare", before, after});
  CHECK(outcome.out.find("18-two-lines against 17-one-thin-line:") != std::string::npos);
  CHECK(outcome.out.find("'top rigg' gets 2.54 L/min instead of") != std::string::npos);
  CHECK(outcome.out.find("no more caution: starved at 'top rigg'") != std::string::npos);
}

TEST_CASE("compare tells the problems of every file and a shared base's only once", "[compare]") {
  const TemporaryFolder folder;
  folder.write("base.yaml", "farm: Base\npipes: {}\nsprings: {s: {overflow: 3, yield: 1 L/s}}\n");
  folder.write("one.yaml", "based on: base.yaml\n");
  folder.write("two.yaml", "based on: base.yaml\nshow: imperial\n");
  const Outcome outcome =
      run_words({"compare", folder.file("one.yaml"), folder.file("two.yaml"), "--json"});
  CHECK(outcome.status == 2);
  const OrderedJson object = OrderedJson::parse(outcome.out);
  CHECK(object["command"] == "compare");
  std::vector<std::string> codes;
  for (const OrderedJson& problem : object["problems"]) {
    codes.push_back(problem["code"]);
  }
  CHECK(codes == std::vector<std::string>{"missing-unit", "unknown-word"});
}

TEST_CASE("compare with one file says that it wants two", "[compare]") {
  const Outcome outcome = run_words({"compare", before});
  CHECK(outcome.status == 2);
  CHECK(outcome.err.find("two farm files") != std::string::npos);
}

TEST_CASE("files are called by their names without folder and ending where that tells them apart",
          "[compare]") {
  CHECK(labels_of({"a/low.yaml", "b/high.yml"}) == std::vector<std::string>{"low", "high"});
  CHECK(labels_of({"a/low.yaml", "b/low.yaml"}) == std::vector<std::string>{"farm 1", "farm 2"});
}

TEST_CASE("a date or step that compare cannot read is a problem of the command line", "[compare]") {
  for (const std::vector<std::string>& flags :
       {std::vector<std::string>{"--from", "May"}, {"--step", "1 year"}, {"--step", "1 s"}}) {
    std::vector<std::string> words = {"compare", before, after};
    words.insert(words.end(), flags.begin(), flags.end());
    CHECK(run_words(words).status == 2);
  }
}

}  // namespace leat::render
