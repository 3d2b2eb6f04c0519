#include "render/commands/solve/json_report.h"

#include <limits>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/render/sample_farm.h"

namespace leat::render {

TEST_CASE("a solved farm is one JSON object whose keys stand in their fixed order") {
  const std::string expected = R"json({
  "format": 1,
  "command": "solve",
  "farm": "Alder Hollow",
  "case": "needs",
  "broken": null,
  "month": "Aug",
  "converged": true,
  "iterations": 8,
  "air_pressure_kPa": 96.4,
  "vapour_pressure_kPa": 1.5,
  "places": [
    {"name": "upper", "kind": "spring", "elevation_m": 40, "head_m": 40, "level_m": 40, "pressure_kPa": null, "delivered_L_s": -0.21000000000000002, "need_L_s": null, "met": null, "spill_L_s": 0.29, "state": "ok", "has_to_give_L_s": 0.5, "stands_m3": null, "lasts_h": null},
    {"name": "gate tee", "kind": "tee", "elevation_m": 34, "head_m": 33.5, "level_m": null, "pressure_kPa": -4.9, "delivered_L_s": 0, "need_L_s": null, "met": null, "spill_L_s": null, "state": "suction", "has_to_give_L_s": null, "stands_m3": null, "lasts_h": null},
    {"name": "north", "kind": "trough", "elevation_m": 32.9, "head_m": 33.4, "level_m": null, "pressure_kPa": 4.9, "delivered_L_s": 0.05, "need_L_s": 0.15, "met": 0.33, "spill_L_s": null, "state": "starved", "has_to_give_L_s": null, "stands_m3": null, "lasts_h": null},
    {"name": "house pond", "kind": "pond", "elevation_m": 30, "head_m": 30, "level_m": 30, "pressure_kPa": null, "delivered_L_s": 0.16, "need_L_s": null, "met": null, "spill_L_s": null, "state": "ok", "has_to_give_L_s": null, "stands_m3": null, "lasts_h": null}
  ],
  "pipes": [
    {"name": "main", "from": "upper", "to": "gate tee", "flow_L_s": 0.21000000000000002, "velocity_m_s": 0.38, "reynolds": 8900, "head_loss_m": 6.5, "lowest_pressure_kPa": -12.1, "lowest_at_m": 36.6, "highest_pressure_kPa": 4.9, "part_full_m": 0, "summit": {"at_m": 36.6, "elevation_m": 40.8, "absolute_head_m": 8.6, "margin_m": 8.4, "parted": false}, "summits": [{"at_m": 36.6, "elevation_m": 40.8, "absolute_head_m": 8.6, "margin_m": 8.4, "parted": false}], "state": "suction", "rating_kPa": 689},
    {"name": "to north", "from": "gate tee", "to": "north", "flow_L_s": 0, "velocity_m_s": 0, "reynolds": 0, "head_loss_m": 0, "lowest_pressure_kPa": null, "lowest_at_m": null, "highest_pressure_kPa": null, "part_full_m": 0, "summit": null, "summits": [], "state": "still", "rating_kPa": null},
    {"name": "to pond", "from": "gate tee", "to": "house pond", "flow_L_s": 0, "velocity_m_s": 0, "reynolds": 0, "head_loss_m": 0, "lowest_pressure_kPa": null, "lowest_at_m": null, "highest_pressure_kPa": null, "part_full_m": 0, "summit": null, "summits": [], "state": "still", "rating_kPa": null}
  ],
  "flags": [
    {"code": "starved", "severity": "caution", "where": "north", "text": "north trough gets 0.8 of the 2.4 gal/min it needs: its float stands 6 ft above the running grade line at gate tee", "value": 0.33, "limit": 1, "unit": "", "case": "needs"}
  ],
  "pumps": [],
  "rams": [],
  "notes": []
}
)json";
  CHECK(solve_json(sample_farm(), sample_answer(), model::UnitSystem::Us) == expected);
}

TEST_CASE("every number in the JSON reads back to the very double the solver found") {
  solver::SteadyAnswer answer = sample_answer();
  answer.pipes[0].velocity_m_s = 0.1 + 0.2;
  answer.pipes[0].head_loss_m = 1.0 / 3.0;
  answer.pipes[1].velocity_m_s = 5e-324;
  const auto object =
      nlohmann::json::parse(solve_json(sample_farm(), answer, model::UnitSystem::Us));
  CHECK(object["pipes"][0]["velocity_m_s"].get<double>() == 0.1 + 0.2);
  CHECK(object["pipes"][0]["head_loss_m"].get<double>() == 1.0 / 3.0);
  CHECK(object["pipes"][1]["velocity_m_s"].get<double>() == 5e-324);
}

TEST_CASE("a number that is none, or infinite, is null in the JSON") {
  solver::SteadyAnswer answer = sample_answer();
  answer.pipes[0].velocity_m_s = std::numeric_limits<double>::quiet_NaN();
  answer.places[0].head_m = std::numeric_limits<double>::infinity();
  const std::string text = solve_json(sample_farm(), answer, model::UnitSystem::Us);
  const auto object = nlohmann::json::parse(text);
  CHECK(object["pipes"][0]["velocity_m_s"].is_null());
  CHECK(object["places"][0]["head_m"].is_null());
  CHECK(text.find("nan") == std::string::npos);
  CHECK(text.find("inf") == std::string::npos);
}

TEST_CASE("a farm without an answer gives no places and no pipes but the reason") {
  solver::SteadyAnswer answer = sample_answer();
  answer.converged = false;
  answer.month.reset();
  model::Diagnostic problem;
  problem.code = "no-balance";
  problem.file = "sample.yaml";
  problem.position = {7, 3};
  problem.text = "the water finds no balance at 'north'";
  answer.problems = {problem};
  const auto object =
      nlohmann::ordered_json::parse(solve_json(sample_farm(), answer, model::UnitSystem::Us));
  CHECK(object["converged"] == false);
  CHECK(object["month"].is_null());
  CHECK(object["places"].dump() == "[]");
  CHECK(object["pipes"].dump() == "[]");
  CHECK(object["problems"].dump() ==
        R"([{"severity":"error","code":"no-balance","file":"sample.yaml","line":7,"column":3,)"
        R"("text":"the water finds no balance at 'north'","hint":null}])");
}

TEST_CASE("a problem that stands in no file has no line in the JSON") {
  model::Diagnostic problem;
  problem.code = "unknown-command";
  problem.text = "there is no command 'slove'";
  problem.hint = "did you mean 'solve'?";
  const auto object = nlohmann::json::parse(problems_json("slove", {problem}));
  CHECK(object["command"] == "slove");
  CHECK(object["problems"][0]["file"].is_null());
  CHECK(object["problems"][0]["line"].is_null());
  CHECK(object["problems"][0]["hint"] == "did you mean 'solve'?");
  CHECK(nlohmann::json::parse(problems_json(std::nullopt, {}))["command"].is_null());
}

TEST_CASE("a name with quotes, a backslash, or bytes that are not UTF-8 still gives valid JSON") {
  model::Farm farm = sample_farm();
  farm.places[2].name = "the \"old\" C:\\trough";
  farm.places[3].name = "pond \xff";
  const auto object =
      nlohmann::json::parse(solve_json(farm, sample_answer(), model::UnitSystem::Us));
  CHECK(object["places"][2]["name"] == "the \"old\" C:\\trough");
  CHECK(object["places"][3]["name"] == "pond \ufffd");
}

}  // namespace leat::render
