#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/cli/run.h"
#include "render/commands/size/command.h"
#include "render/document/text_table.h"
#include "tests/render/run_words.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

using Json = nlohmann::ordered_json;

std::string demo() {
  return std::string(LEAT_SOURCE_DIR) + "/networks-demo/20-which-pipe.yaml";
}

std::vector<std::string> keys_of(const Json& object) {
  std::vector<std::string> keys;
  for (const auto& item : object.items()) {
    keys.push_back(item.key());
  }
  return keys;
}

}  // namespace

TEST_CASE("The JSON of size has the keys of the contract, in their order", "[size]") {
  const Outcome outcome = run_words({"size", demo(), "--json"});
  REQUIRE(outcome.status == 0);
  const Json object = Json::parse(outcome.out);
  CHECK(keys_of(object) == std::vector<std::string>{"format",
                                                    "command",
                                                    "farm",
                                                    "runs",
                                                    "cost",
                                                    "bound",
                                                    "method",
                                                    "stores",
                                                    "flags",
                                                    "places",
                                                    "notes"});
  CHECK(object["command"] == "size");
  REQUIRE(object["runs"].size() == 3);
  CHECK(keys_of(object["runs"][0]) == std::vector<std::string>{"pipe", "parts"});
  CHECK(keys_of(object["runs"][0]["parts"][0]) ==
        std::vector<std::string>{"size", "length_m", "cost"});
  CHECK(object["runs"][0]["parts"][0]["cost"] == 0.0);  // out of the barn
  CHECK(object["method"] == "exact");
  double cost = 0.0;
  for (const Json& run : object["runs"]) {
    for (const Json& part : run["parts"]) {
      cost += part["cost"].get<double>();
    }
  }
  CHECK(object["cost"].get<double>() == Approx(cost));
}

TEST_CASE("The screen of size keeps to its width and names what to hold", "[size]") {
  const Outcome outcome = run_words({"size", demo()});
  CHECK(outcome.status == 0);
  std::istringstream lines(outcome.out);
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    CHECK(display_width(line) <= 100);
  }
  CHECK(outcome.out.find("Exact: no other choice") != std::string::npos);
  CHECK(outcome.out.find("too small") != std::string::npos);
  CHECK(outcome.out.find("Too small by the rule to go by: top and bottom. Nothing else amiss") !=
        std::string::npos);
  CHECK(outcome.out.find("no size: ") == std::string::npos);
}

TEST_CASE("A store that must stand in for water that does not come is not asked for unsaid",
          "[size]") {
  const std::string demos = std::string(LEAT_SOURCE_DIR) + "/networks-demo/";
  const Outcome dry = run_words({"size", demos + "23-dry-year.yaml"});
  CHECK(dry.out.find("So much at ridge tank and north: ") != std::string::npos);
  const Outcome enough = run_words({"size", demos + "04-deep-dip.yaml"});
  CHECK(enough.out.find("So much at ") == std::string::npos);
}

TEST_CASE("The farm written with its sizes keeps every comment and solves with nothing amiss",
          "[size]") {
  const TemporaryFolder folder;
  const std::string sized = folder.file("sized.yaml");
  const Outcome outcome = run_words({"size", demo(), "--write", sized});
  REQUIRE(outcome.status == 0);
  CHECK(outcome.err == "wrote " + sized + "\n");
  const std::string text = folder.content("sized.yaml");
  CHECK(text.find("# along the hedge") != std::string::npos);
  CHECK(text.find("#   size: choose") != std::string::npos);  // the run as it was
  CHECK(text.find("main joint: ") != std::string::npos);
  CHECK(run_words({"solve", sized, "--audit"}).status == 0);
  const Json again = Json::parse(run_words({"size", sized, "--json"}).out);
  CHECK(again["runs"].empty());  // nothing left to choose
  CHECK(again["cost"].is_null());
  CHECK_FALSE(again["stores"].empty());
}

TEST_CASE("The file is never written over itself, nor over another unasked", "[size]") {
  const TemporaryFolder folder;
  std::ifstream stream(demo(), std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  folder.write("farm.yaml", text);
  folder.write("other.yaml", "farm: other\n");
  const std::string farm = folder.file("farm.yaml");
  const Outcome over = run_words({"size", farm, "--write", farm, "--replace"});
  CHECK(over.status == 2);
  CHECK(over.err.find("is a file the farm is read from") != std::string::npos);
  CHECK(folder.content("farm.yaml") == text);
  CHECK(run_words({"size", farm, "--write", folder.file("other.yaml")}).status == 2);
  CHECK(folder.content("other.yaml") == "farm: other\n");
  CHECK(run_words({"size", farm, "--write", folder.file("other.yaml"), "--replace"}).status == 0);
}

TEST_CASE("Pipes and tees in one line of braces are sized in place, in several sizes refused",
          "[size]") {
  const TemporaryFolder folder;
  folder.write("farm.yaml",
               "farm: braces\nshow: US\ncreeks: {pool: {surface: 100 ft}}\n"
               "outlets: {low: {level: 70 ft, wished: 10 gal/min}}\n"
               "pipes: {run: {from: pool, to: low, size: choose, length: 1000 ft}}  # one line\n"
               "prices: {1 in SIDR 15: 0.4 per ft, 1-1/4 in SIDR 15: 0.62 per ft}\n");
  const std::string farm = folder.file("farm.yaml");
  const Outcome parted = run_words({"size", farm, "--write", folder.file("a.yaml")});
  CHECK(parted.status == 2);
  CHECK(parted.err.find("lines of their own") != std::string::npos);
  const Outcome whole = run_words({"size", farm, "--one-size", "--write", folder.file("b.yaml")});
  CHECK(whole.status == 0);
  CHECK(folder.content("b.yaml").find(
            "size: \"1-1/4 in SIDR 15\", length: 1000 ft}}  # one line") == std::string::npos);
  CHECK(folder.content("b.yaml").find("size: 1-1/4 in SIDR 15, length: 1000 ft}}  # one line") !=
        std::string::npos);
}

TEST_CASE("The parts come as CSV, a line each", "[size]") {
  const Outcome outcome = run_words({"size", demo(), "--csv"});
  CHECK(outcome.status == 0);
  CHECK(outcome.out.starts_with("pipe,size,length_m,cost\nmain,\"1 in SIDR 15, 100 psi\",36.576"));
}

TEST_CASE("A farm with a size left to choose is not solved, and the way on is told", "[size]") {
  const Outcome outcome = run_words({"solve", demo()});
  CHECK(outcome.status == 2);
  CHECK(outcome.err.find("'leat size' chooses it") != std::string::npos);
}

}  // namespace leat::render
