// How sure an answer is, as it is printed.
#include "render/commands/solve/spread_report.h"

#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/cli/run.h"
#include "render/document/text_table.h"
#include "tests/render/run_words.h"

namespace leat::render {

namespace {

using Json = nlohmann::ordered_json;

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

}  // namespace

TEST_CASE("The spread's JSON has the keys of the output document in their order") {
  const Outcome outcome =
      run_words({"solve", demo("01-over-the-rise"), "--spread", "50", "--seed", "9", "--json"});
  const Json object = Json::parse(outcome.out);
  CHECK(keys_of(object) == std::vector<std::string>{"format",
                                                    "command",
                                                    "farm",
                                                    "case",
                                                    "broken",
                                                    "month",
                                                    "converged",
                                                    "draws",
                                                    "seed",
                                                    "places",
                                                    "summits",
                                                    "causes",
                                                    "flags"});
  CHECK(object["command"] == "solve");
  CHECK(object["draws"] == 50);
  CHECK(object["seed"] == 9);
  CHECK(keys_of(object["places"][0]) ==
        std::vector<std::string>{
            "name", "low_L_s", "likely_L_s", "high_L_s", "chance_short", "need_L_s"});
  REQUIRE(!object["summits"].empty());
  CHECK(keys_of(object["summits"][0]) == std::vector<std::string>{"pipe", "at_m", "chance_parts"});
  REQUIRE(!object["causes"].empty());
  CHECK(keys_of(object["causes"][0]) == std::vector<std::string>{"input", "share"});
}

TEST_CASE("A spread is asked for before or after the file, counted or not") {
  const std::string file = demo("02-high-trough");
  const Outcome plain = run_words({"solve", "--spread", file, "--json"});
  CHECK(Json::parse(plain.out)["draws"] == 1000);
  const Outcome counted = run_words({"solve", "--spread", "20", file, "--json"});
  CHECK(Json::parse(counted.out)["draws"] == 20);
  const Outcome joined = run_words({"solve", file, "--spread=20", "--json"});
  CHECK(joined.out == counted.out);
}

TEST_CASE("A spread that crosses the need says may, with the chance") {
  const Outcome outcome = run_words({"solve", demo("02-high-trough"), "--spread", "200"});
  CHECK(outcome.status == 1);
  CHECK(outcome.out.find("top may go short: ") != std::string::npos);
  CHECK(outcome.out.find(" of 200 draws.") != std::string::npos);
  CHECK(outcome.out.find("of the spread comes from the ") != std::string::npos);
  std::istringstream lines(outcome.out);
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    CHECK(display_width(line) <= 100);
  }
}

TEST_CASE("The spread's CSV has a row for each place") {
  const Outcome outcome = run_words({"solve", demo("01-over-the-rise"), "--spread", "20", "--csv"});
  CHECK(outcome.out.rfind("name,low_L_s,likely_L_s,high_L_s,chance_short\n", 0) == 0);
  CHECK(outcome.out.find("\nwillow pond,") != std::string::npos);
}

TEST_CASE("A spread that cannot be had says why") {
  const std::string file = demo("01-over-the-rise");
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"solve", file, "--spread", "0"},
                                             {"solve", file, "--spread", "-5"},
                                             {"solve", file, "--spread", "1e9"},
                                             {"solve", file, "--spread=many"},
                                             {"solve", file, "--spread", "10", "--seed", "-1"},
                                             {"solve", file, "--seed", "3"},
                                             {"solve", file, "--spread", "--case", "static"},
                                             {"solve", file, "--spread", "--csv=pipes"},
                                             {"read", file, "--spread"}}) {
    const Outcome outcome = run_words(words);
    INFO(outcome.err);
    CHECK(outcome.status == 2);
    CHECK(outcome.out.empty());
    CHECK(!outcome.err.empty());
  }
}

TEST_CASE("The low case that says no is said in the exit status") {
  solver::Spread spread;
  spread.answer.converged = true;
  spread.places.resize(1);
  spread.places[0].chance_short = 0.04;
  CHECK(exit_code_of(spread) == ExitCode::NothingAmiss);
  spread.places[0].chance_short = 0.05;
  CHECK(exit_code_of(spread) == ExitCode::Amiss);
  spread.places[0].chance_short.reset();
  spread.summits.push_back({0, 10.0, 0.2});
  CHECK(exit_code_of(spread) == ExitCode::Amiss);
}

}  // namespace leat::render
