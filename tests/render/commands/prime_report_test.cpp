#include "render/commands/prime/prime_report.h"

#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/cli/run.h"
#include "render/document/text_table.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

using Json = nlohmann::ordered_json;

struct Outcome {
  int status = 0;
  std::string out;
  std::string err;
};

Outcome run_words(const std::vector<std::string>& words, int width = 100) {
  std::ostringstream out;
  std::ostringstream err;
  Terminal terminal;
  terminal.width = width;
  const int status = run(words, out, err, terminal);
  return {status, out.str(), err.str()};
}

std::string demo(const std::string& name) {
  return std::string(LEAT_SOURCE_DIR) + "/networks-demo/" + name + ".yaml";
}

std::vector<std::string> keys_of(const Json& object) {
  std::vector<std::string> keys;
  for (const auto& item : object.items()) {
    keys.push_back(item.key());
  }
  return keys;
}

bool has_text(const std::string& text, const std::string& piece) {
  return text.find(piece) != std::string::npos;
}

/// A sheet as one line of words: where it is wrapped does not matter.
std::string unwrapped(const std::string& text) {
  std::istringstream words(text);
  std::string joined;
  for (std::string word; words >> word;) {
    joined += (joined.empty() ? "" : " ") + word;
  }
  return joined;
}

}  // namespace

TEST_CASE("the JSON of a priming plan has the contract's keys in their order") {
  const Outcome now = run_words({"prime", demo("01-over-the-rise"), "--json"});
  CHECK(now.status == 0);
  CHECK(now.err.empty());
  const Json plan = Json::parse(now.out);
  CHECK(keys_of(plan) == std::vector<std::string>{"format",
                                                  "command",
                                                  "farm",
                                                  "holds",
                                                  "legs",
                                                  "volume_L",
                                                  "fill_s",
                                                  "pump_kPa",
                                                  "steps",
                                                  "flow_L_s",
                                                  "flow_without_foot_valve_L_s",
                                                  "flags",
                                                  "air"});
  CHECK(plan["command"] == "prime");
  CHECK(plan["holds"] == true);
  REQUIRE(plan["legs"].size() == 2);
  CHECK(keys_of(plan["legs"][0]) ==
        std::vector<std::string>{
            "pipe", "from_m", "to_m", "volume_L", "from_elevation_m", "to_elevation_m"});
  // 90 ft along the path is 27.432 m.
  CHECK(plan["legs"][0]["to_m"].get<double>() == Approx(27.432));
  CHECK(plan["volume_L"].get<double>() == Approx(plan["legs"][0]["volume_L"].get<double>() +
                                                 plan["legs"][1]["volume_L"].get<double>()));
  for (std::size_t i = 0; i < plan["steps"].size(); ++i) {
    CHECK(keys_of(plan["steps"][i]) ==
          std::vector<std::string>{"number", "where", "text", "volume_L", "seconds"});
    CHECK(plan["steps"][i]["number"] == i + 1);
  }
  CHECK(plan["flow_without_foot_valve_L_s"].get<double>() > plan["flow_L_s"].get<double>());
}

TEST_CASE("what a plan has not is null, and a siphon that cannot hold has no steps") {
  const Json filled = Json::parse(run_words({"prime", demo("07-air-that-stays"), "--json"}).out);
  CHECK(filled["holds"] == true);
  CHECK(filled["pump_kPa"].is_null());
  CHECK(filled["flow_without_foot_valve_L_s"].is_null());
  const Outcome broken = run_words({"prime", demo("06-siphon-that-breaks"), "--json"});
  CHECK(broken.status == 1);
  const Json plan = Json::parse(broken.out);
  CHECK(plan["holds"] == false);
  CHECK(plan["steps"].empty());
  CHECK(plan["flags"][0]["code"] == "breaks");
}

TEST_CASE("a pipe that is not there ends with 2 and its problem, in JSON too") {
  const Outcome text = run_words({"prime", demo("01-over-the-rise"), "siphn"});
  CHECK(text.status == 2);
  CHECK(text.out.empty());
  CHECK(text.err == "leat: no pipe is named 'siphn' (did you mean 'siphon'?)\n");
  const Outcome json = run_words({"prime", demo("01-over-the-rise"), "siphn", "--json"});
  CHECK(json.status == 2);
  CHECK(Json::parse(json.out)["problems"][0]["code"] == "unknown-pipe");
}

TEST_CASE("the sheet tells how to stop before how to start, and what to mind") {
  const Outcome now = run_words({"prime", demo("01-over-the-rise")});
  CHECK(now.status == 0);
  CHECK(has_text(now.out, " 1  Know how to stop it before you start it."));
  CHECK(has_text(now.out, "Never start a siphon by mouth"));
  CHECK(has_text(now.out, "K. & B."));
  CHECK(now.out.find("Know how to stop") < now.out.find("Pour water in"));
}

TEST_CASE("no line of the sheet is wider than the screen") {
  for (const int width : {72, 100}) {
    std::istringstream lines(run_words({"prime", demo("05-tangle")}, width).out);
    for (std::string line; std::getline(lines, line);) {
      CAPTURE(line);
      // Tables have the width of their columns.
      const bool is_table =
          line.find("  creek line") == 0 || has_text(line, "  swept") || has_text(line, "K. & B.");
      CHECK((is_table || display_width(line) <= width));
    }
  }
}

TEST_CASE("the sheet follows the units asked for") {
  const std::string metric =
      run_words({"prime", demo("01-over-the-rise"), "--units", "metric"}).out;
  CHECK(has_text(metric, "buckets of 10 L"));
  CHECK_FALSE(has_text(metric, " gal"));
  CHECK_FALSE(has_text(metric, " psi"));
}

TEST_CASE("names and the datum stand in quotes, so that no sentence of the sheet is misread") {
  const std::string sheet = run_words({"prime", demo("05-tangle")}).out;
  CHECK(has_text(unwrapped(sheet), "the gate valve at the end of 'free end'"));
  CHECK(has_text(unwrapped(sheet), "along the ground from each pipe's start"));
  // The datum is the file's own words, whatever units the rest has.
  const std::string metric =
      run_words({"prime", demo("01-over-the-rise"), "--units", "metric"}).out;
  CHECK(has_text(unwrapped(metric), "above the datum 'flat stone by the creek pool = 100 ft'"));
}

TEST_CASE("opening the top lets only the lower leg run off where a foot valve holds the other") {
  CHECK(has_text(unwrapped(run_words({"prime", demo("01-over-the-rise")}).out),
                 "what lies beyond it runs off, while the hinged foot valve holds the rest. From "
                 "the side, turn the cap off by its rim"));
}

TEST_CASE("a line that fills by itself over a danger has no steps in JSON either") {
  const Outcome now = run_words({"prime", demo("14-knee-before-the-bank"), "--json"});
  CHECK(now.status == 1);
  const Json plan = Json::parse(now.out);
  CHECK(plan["holds"] == false);
  CHECK(plan["steps"].empty());
}

}  // namespace leat::render
