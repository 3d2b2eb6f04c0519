// `leat fit` as a person and a script see it.
#include "render/commands/fit/fit_report.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/cli/run.h"
#include "tests/render/run_words.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

const std::string demo = std::string(LEAT_SOURCE_DIR) + "/networks-demo/19-weak-line.yaml";

std::vector<std::string> keys_of(const nlohmann::ordered_json& object) {
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) {
    keys.push_back(key);
  }
  return keys;
}

std::string content_of(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

}  // namespace

TEST_CASE("a fit in JSON has the promised keys in their order", "[fit]") {
  const Outcome outcome = run_words({"fit", demo, "--json"});
  CHECK(outcome.status == 0);
  const auto object = nlohmann::ordered_json::parse(outcome.out);
  CHECK(keys_of(object) ==
        std::vector<std::string>{
            "format", "command", "farm", "measured", "causes", "next", "verdict", "flags"});
  REQUIRE(object["measured"].size() == 4);
  CHECK(keys_of(object["measured"][0]) ==
        std::vector<std::string>{"at", "given", "computed", "error", "what", "unit"});
  REQUIRE_FALSE(object["causes"].empty());
  CHECK(keys_of(object["causes"][0]) ==
        std::vector<std::string>{
            "rank", "cause", "where", "size", "unit", "low", "high", "chance", "alike", "places"});
  CHECK(object["causes"][0]["where"] == "main");
  CHECK(object["causes"][0]["places"][0] == "main");
}

TEST_CASE("a fit's screen stays within a hundred columns and says what comes next", "[fit]") {
  const Outcome outcome = run_words({"fit", demo});
  std::istringstream lines(outcome.out);
  for (std::string line; std::getline(lines, line);) {
    CHECK(line.size() <= 100);
  }
  CHECK(outcome.out.find("Next: measure") != std::string::npos);
}

TEST_CASE("a gauge is never told to show more suction than water bears", "[fit]") {
  const TemporaryFolder folder;
  const std::string farm = folder.file("farm.yaml");
  std::ofstream(farm)
      << content_of(std::string(LEAT_SOURCE_DIR) + "/networks-demo/05-tangle.yaml")
      << "\nmeasured:\n  - {at: garden hose, flow: [1 gal in 60 s], on: 2026-08-12, "
         "with: bucket}\n";
  std::string words;
  std::istringstream lines(run_words({"fit", farm}).out);
  for (std::string word; lines >> word;) {
    words += word + ' ';
  }
  INFO(words);
  CHECK(words.find("Next: measure the pressure at knoll tee: ") != std::string::npos);
  CHECK(words.find("all the suction water bears, 9") != std::string::npos);  // some 95 kPa there
  CHECK(words.find("about -") == std::string::npos);
  CHECK(words.find("that takes a gauge that reads suction too.") != std::string::npos);
}

TEST_CASE("the copy a fit writes never takes the place of the farm file", "[fit]") {
  const TemporaryFolder folder;
  const std::string farm = folder.file("farm.yaml");
  std::filesystem::copy_file(demo, farm);
  CHECK(run_words({"fit", farm, "--write", farm, "--replace"}).status == 2);
  const std::string other = folder.file("./farm.yaml");
  CHECK(run_words({"fit", farm, "--write", other, "--replace"}).status == 2);
  CHECK(content_of(farm) == content_of(demo));
  const std::string copy = folder.file("copy.yaml");
  CHECK(run_words({"fit", farm, "--write", copy}).status == 0);
  CHECK(content_of(copy).find("k 60") != std::string::npos);
  CHECK(run_words({"fit", farm, "--write", copy}).status == 2);
}

TEST_CASE("a farm without measurements is told so", "[fit]") {
  const Outcome outcome =
      run_words({"fit", std::string(LEAT_SOURCE_DIR) + "/networks-demo/02-high-trough.yaml"});
  CHECK(outcome.out.find("holds no measurement") != std::string::npos);
}

}  // namespace leat::render
