// How sure a season is, as it is printed.
#include "render/commands/season/season_spread_report.h"

#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/document/text_table.h"
#include "tests/render/run_words.h"

namespace leat::render {

namespace {

using Json = nlohmann::ordered_json;
using Words = std::vector<std::string>;

const std::string dry_year = std::string(LEAT_SOURCE_DIR) + "/networks-demo/23-dry-year.yaml";

/// Ten days of August by steps of three hours: long enough to go short.
Words season_words(const Words& more) {
  Words words{"season", dry_year, "--from", "2026-08-14", "--to", "2026-08-23", "--step", "3h"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

Words keys_of(const Json& object) {
  Words keys;
  for (const auto& item : object.items()) {
    keys.push_back(item.key());
  }
  return keys;
}

}  // namespace

TEST_CASE("The season's spread has the keys of the output document in their order") {
  const Outcome outcome = run_words(season_words({"--spread", "12", "--seed", "9", "--json"}));
  const Json object = Json::parse(outcome.out);
  CHECK(keys_of(object) == Words{"format",
                                 "command",
                                 "farm",
                                 "from",
                                 "to",
                                 "step_s",
                                 "converged",
                                 "draws",
                                 "seed",
                                 "troughs",
                                 "tanks",
                                 "ponds",
                                 "summits",
                                 "breaks",
                                 "causes",
                                 "flags"});
  CHECK(object["command"] == "season");
  CHECK(object["draws"] == 12);
  CHECK(object["seed"] == 9);
  REQUIRE(object["troughs"].size() == 3);
  CHECK(keys_of(object["troughs"][0]) == Words{"name",
                                               "low_m3",
                                               "likely_m3",
                                               "high_m3",
                                               "low_met",
                                               "likely_met",
                                               "high_met",
                                               "chance_short",
                                               "early_first_dry",
                                               "likely_first_dry",
                                               "late_first_dry",
                                               "low_dry_h",
                                               "likely_dry_h",
                                               "high_dry_h"});
  REQUIRE(object["tanks"].size() == 1);
  CHECK(keys_of(object["tanks"][0]) ==
        Words{"name", "low_lowest_m", "likely_lowest_m", "high_lowest_m", "chance_empty"});
  REQUIRE(!object["causes"].empty());
  CHECK(keys_of(object["causes"][0]) == Words{"input", "share"});
}

TEST_CASE("A season whose spread crosses the need says may, with the chance and the days") {
  const Outcome outcome = run_words(season_words({"--spread", "20"}));
  INFO(outcome.out);
  CHECK(outcome.status == 1);
  CHECK(outcome.out.find("north may go short: ") != std::string::npos);
  CHECK(outcome.out.find(" of 20 draws") != std::string::npos);
  CHECK(outcome.out.find("of the spread at ") != std::string::npos);
  // Dangers and cautions stand above it; notes only as their number.
  CHECK(outcome.out.find("\ncaution  north gets ") != std::string::npos);
  CHECK(outcome.out.find("\nnote ") == std::string::npos);
  CHECK(outcome.out.find(" notes, which leat season shows without --spread.") != std::string::npos);
  CHECK(outcome.out.find("a drier year is not among the draws") != std::string::npos);
  std::istringstream lines(outcome.out);
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    CHECK(display_width(line) <= 100);
  }
}

TEST_CASE("The season's own tables, dangers and cautions stand above its spread as they do alone") {
  const std::string alone = run_words(season_words({})).out;
  const std::string with_spread = run_words(season_words({"--spread", "2"})).out;
  const std::size_t first_note = alone.find("\nnote ");
  REQUIRE(first_note != std::string::npos);
  CHECK(alone.find("\ncaution ") < first_note);
  CHECK(with_spread.rfind(alone.substr(0, first_note), 0) == 0);
  CHECK(with_spread.size() > alone.size());
}

TEST_CASE("The season's spread is asked for before or after the file, counted or not") {
  const Outcome counted = run_words(season_words({"--spread", "3", "--json"}));
  CHECK(Json::parse(counted.out)["draws"] == 3);
  CHECK(run_words(season_words({"--json", "--spread=3"})).out == counted.out);
  const Outcome plain = run_words({"season",
                                   "--spread",
                                   dry_year,
                                   "--from",
                                   "2026-08-14",
                                   "--to",
                                   "2026-08-14",
                                   "--step",
                                   "1 day",
                                   "--json"});
  CHECK(Json::parse(plain.out)["draws"] == 100);
}

TEST_CASE("The season's spread has a CSV of troughs, tanks and ponds") {
  const Outcome troughs = run_words(season_words({"--spread", "3", "--csv"}));
  CHECK(troughs.out.rfind("name,low_m3,likely_m3,high_m3,low_met,", 0) == 0);
  CHECK(troughs.out.find("\nnorth,") != std::string::npos);
  const Outcome tanks = run_words(season_words({"--spread", "3", "--csv=tanks"}));
  CHECK(tanks.out.rfind("name,low_lowest_m,likely_lowest_m,high_lowest_m,chance_empty\n", 0) == 0);
  CHECK(tanks.out.find("\nridge tank,") != std::string::npos);
  const Outcome ponds = run_words(season_words({"--spread", "3", "--csv=ponds"}));
  CHECK(ponds.out ==
        "name,low_lowest_m,likely_lowest_m,high_lowest_m,chance_empty,early_filled_on,"
        "likely_filled_on,late_filled_on\n");
}

TEST_CASE("A season's spread that cannot be had says why") {
  for (const Words& more : std::vector<Words>{{"--spread", "0"},
                                              {"--spread=many"},
                                              {"--seed", "3"},
                                              {"--spread", "--until-dry", "sallow spring"},
                                              {"--spread", "-o", "-"},
                                              {"--spread", "--csv=levels"},
                                              {"--spread", "--csv=balance"}}) {
    const Outcome outcome = run_words(season_words(more));
    INFO(outcome.err);
    CHECK(outcome.status == 2);
    CHECK(outcome.out.empty());
    CHECK(!outcome.err.empty());
  }
}

TEST_CASE("The low season that says no is said in the exit status") {
  solver::SeasonSpread spread;
  spread.answer.converged = true;
  spread.draws = 100;
  spread.troughs.resize(1);
  spread.troughs[0].chance_short = 0.04;
  CHECK(exit_code_of(spread) == ExitCode::NothingAmiss);
  spread.troughs[0].chance_short = 0.05;
  CHECK(exit_code_of(spread) == ExitCode::Amiss);
  spread.troughs[0].chance_short.reset();
  spread.breaks.push_back({0, 0.2});
  CHECK(exit_code_of(spread) == ExitCode::Amiss);
  spread.breaks.clear();
  spread.summits.push_back({0, 10.0, 0.2});
  CHECK(exit_code_of(spread) == ExitCode::Amiss);
}

}  // namespace leat::render
