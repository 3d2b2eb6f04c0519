// What a script reads of a season: the contract's keys in the contract's order.
#include "render/commands/season/season_json.h"

#include <limits>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/commands/season/season_csv.h"
#include "tests/render/sample_season.h"

namespace leat::render {

namespace {

using Read = nlohmann::ordered_json;

std::vector<std::string> keys_of(const Read& object) {
  std::vector<std::string> keys;
  for (const auto& item : object.items()) {
    keys.push_back(item.key());
  }
  return keys;
}

using Keys = std::vector<std::string>;

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) {
    lines.push_back(line);
  }
  return lines;
}

}  // namespace

TEST_CASE("the JSON of a season has the contract's keys in their order") {
  solver::SeasonAnswer answer = season_answer();
  answer.first_short = {{2, 2e-4}};
  const Read season = Read::parse(season_json(season_farm(), answer, model::UnitSystem::Metric));
  CHECK(keys_of(season) == Keys{"format",
                                "command",
                                "farm",
                                "from",
                                "to",
                                "step_s",
                                "converged",
                                "balance",
                                "troughs",
                                "tanks",
                                "ponds",
                                "first_short",
                                "flags",
                                "pumps",
                                "rams",
                                "broken_siphons",
                                "notes"});
  CHECK(season["format"] == 1);
  CHECK(season["command"] == "season");
  CHECK(season["from"] == "2026-05-01");
  CHECK(season["to"] == "2026-10-31");
  CHECK(season["step_s"] == 3600.0);
  CHECK(season["converged"] == true);
  CHECK(keys_of(season["balance"]) ==
        Keys{"in_m3", "out_m3", "stored_m3", "spilled_m3", "lost_m3", "error_m3"});
  const Read& trough = season["troughs"][0];
  CHECK(keys_of(trough) ==
        Keys{"name", "first_dry", "longest_dry_h", "months", "got_m3", "need_m3", "met", "dry_h"});
  CHECK(trough["first_dry"] == "2026-08-12");
  CHECK(season["troughs"][1]["first_dry"].is_null());
  CHECK(keys_of(trough["months"][3]) ==
        Keys{"month", "got_m3", "need_m3", "met", "dry_h", "reason", "year"});
  CHECK(trough["months"][3]["month"] == "Aug");
  CHECK(trough["months"][3]["met"] == 0.612);
  CHECK(trough["months"][0]["reason"].is_null());
  CHECK(keys_of(season["tanks"][0]) ==
        Keys{"name", "lowest_m", "lowest_on", "days_alone", "spilled_m3", "ran_empty", "levels"});
  CHECK(keys_of(season["ponds"][0]) == Keys{"name",
                                            "filled_on",
                                            "lowest_m",
                                            "fill_m3",
                                            "rain_m3",
                                            "runoff_m3",
                                            "evaporation_m3",
                                            "seepage_m3",
                                            "stock_m3",
                                            "spilled_m3",
                                            "levels",
                                            "lowest_on",
                                            "ran_empty"});
  CHECK(season["ponds"][0]["levels"].size() == 184);
  CHECK(keys_of(season["ponds"][0]["levels"][0]) == Keys{"on", "level_m"});
  CHECK(season["ponds"][0]["levels"][0]["on"] == "2026-05-01");
  CHECK(keys_of(season["first_short"][0]) == Keys{"name", "yield_L_s"});
  CHECK(season["first_short"][0]["yield_L_s"].get<double>() == Approx(0.2));
  CHECK(keys_of(season["flags"][0]) ==
        Keys{"code", "severity", "where", "text", "value", "limit", "unit", "case"});
}

TEST_CASE("a season without a figure says null and never NaN") {
  solver::SeasonAnswer answer = season_answer();
  answer.tanks[0].days_alone.reset();
  answer.ponds[0].filled_on.reset();
  answer.troughs[0].months[0].met.reset();
  answer.balance.error_m3 = std::numeric_limits<double>::quiet_NaN();
  const std::string text = season_json(season_farm(), answer, model::UnitSystem::Metric);
  const Read season = Read::parse(text);
  CHECK(season["tanks"][0]["days_alone"].is_null());
  CHECK(season["ponds"][0]["filled_on"].is_null());
  CHECK(season["troughs"][0]["months"][0]["met"].is_null());
  CHECK(season["balance"]["error_m3"].is_null());
  CHECK(text.find("nan") == std::string::npos);
}

TEST_CASE("a season without an answer gives its problems and no half figures") {
  solver::SeasonAnswer answer = season_answer();
  answer.converged = false;
  answer.problems = {solver::NoBalance{{2026, 8, 12}, 3600.0, "it does not settle"}};
  const Read season = Read::parse(season_json(season_farm(), answer, model::UnitSystem::Metric));
  CHECK(season["converged"] == false);
  CHECK(season["balance"].is_null());
  CHECK(season["troughs"].empty());
  CHECK(season["ponds"].empty());
  CHECK(season["flags"].empty());
  CHECK(season["problems"][0]["code"] == "not-solved");
}

TEST_CASE("the CSV of a season carries the JSON's keys and one row a month or store") {
  const model::Farm farm = season_farm();
  const solver::SeasonAnswer answer = season_answer();
  const auto troughs = lines_of(season_troughs_csv(farm, answer, model::UnitSystem::Metric));
  REQUIRE(troughs.size() == 1 + 2 * 6);
  CHECK(troughs[0] == "name,first_dry,longest_dry_h,month,got_m3,need_m3,met,dry_h,reason,year");
  CHECK(troughs[1] == "north,2026-08-12,62.500,May,37.2000,37.2000,1.0000,0.000,,2026");
  CHECK(troughs[7].substr(0, 14) == "south,,0.000,M");
  CHECK(lines_of(season_tanks_csv(farm, answer)) ==
        std::vector<std::string>{"name,lowest_m,lowest_on,days_alone",
                                 "hill tank,36.1200,2026-08-21,2.500"});
  CHECK(lines_of(season_ponds_csv(farm, answer)) ==
        std::vector<std::string>{"name,filled_on,lowest_m,fill_m3,rain_m3,runoff_m3,"
                                 "evaporation_m3,seepage_m3,stock_m3,spilled_m3",
                                 "house pond,2026-06-03,29.6000,276.0000,90.0000,40.0000,"
                                 "138.0000,40.0000,24.0000,200.0000"});
  CHECK(lines_of(season_levels_csv(farm, answer)).size() == 1 + 2 * 184);
  CHECK(lines_of(season_balance_csv(answer))[1] ==
        "1080.5000,420.2500,-18.0000,500.2500,178.0000,0.000000000");
}

}  // namespace leat::render
