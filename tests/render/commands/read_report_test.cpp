#include "render/commands/read/read_report.h"

#include <algorithm>

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "render/commands/read/pipe_reading.h"
#include "tests/render/sample_farm.h"

namespace leat::render {

TEST_CASE("the losses of a pipe add up: entrance, fittings, valve and exit") {
  model::Farm farm = sample_farm();
  CHECK(pipe_reading(farm, farm.pipes[0], {}).forward_k == Approx(0.5));  // spring to tee
  CHECK(pipe_reading(farm, farm.pipes[1], {}).forward_k == Approx(1.0));  // tee to open float
  CHECK(pipe_reading(farm, farm.pipes[2], {}).forward_k == Approx(1.0));  // tee to pond
  model::Fitting elbow;
  elbow.name = "elbow";
  elbow.count = 2;
  elbow.loss_coefficient = 0.7;
  elbow.one_way = true;
  farm.pipes[0].fittings = {elbow};
  farm.pipes[0].entrance_k = 0.1;
  const PipeReading reading = pipe_reading(farm, farm.pipes[0], {});
  CHECK(reading.forward_k == Approx(0.1 + 1.4));
  CHECK(reading.is_one_way);
}

TEST_CASE("water that leaves through a seat or an opening has no exit loss beside the orifice's") {
  model::Farm farm = sample_farm();
  std::get<model::Trough>(farm.places[2].data).seat = millimetres(6.0);
  CHECK(pipe_reading(farm, farm.pipes[1], {}).forward_k == 0.0);
  farm.pipes[1].exit_k = 0.3;
  CHECK(pipe_reading(farm, farm.pipes[1], {}).forward_k == Approx(0.3));
}

TEST_CASE("a shut valve is told as shut and has no loss") {
  model::Farm farm = sample_farm();
  model::Valve valve;
  valve.shut = true;
  farm.pipes[0].valve = valve;
  const PipeReading reading = pipe_reading(farm, farm.pipes[0], {});
  CHECK(reading.is_shut);
  CHECK_FALSE(reading.valve_k);
}

TEST_CASE("reading as JSON gives true bores, levels and the rate of each need") {
  model::Farm farm = sample_farm();
  std::get<model::Trough>(farm.places[2].data).need =
      model::DailyNeed{model::MonthSeries<Volume>::constant(litres(864.0))};
  const auto object = nlohmann::ordered_json::parse(read_json(farm, {}));
  CHECK(object["pipes"][0]["bore_mm"].get<double>() == Approx(26.6));
  CHECK(object["pipes"][0]["from_level_m"].get<double>() == Approx(39.5));
  CHECK(object["pipes"][0]["to_level_m"].get<double>() == Approx(34.0));
  CHECK(object["places"][2]["flow_word"] == "needs");
  CHECK(object["places"][2]["flow_L_s"].get<double>() == Approx(0.01));  // 864 L in 24 h
  CHECK(object["places"][2]["per_day_L"].get<double>() == Approx(864.0));
  CHECK(object["places"][1]["flow_L_s"].is_null());
  CHECK(object["places"][0]["flow_by_month_L_s"].size() == 12);
  const auto in_august = nlohmann::json::parse(read_json(farm, model::Month::Aug));
  CHECK(in_august["month"] == "Aug");
  CHECK(in_august["places"][0]["flow_L_s"].get<double>() == Approx(0.5));
}

TEST_CASE("reading on screen tells bores in both units, assumptions and what is not solved") {
  model::Farm farm = sample_farm();
  farm.notes = {"May of upper's yield lies between two given months: the lower was taken"};
  farm.pipes[0].size.rating_assumed = true;
  farm.pipes[1].size.choose = model::SourcePosition{};
  const std::string text = read_table(farm, {model::UnitSystem::Us, {}}, Terminal{});
  CHECK(text.find("26.6") != std::string::npos);
  CHECK(text.find("1.047") != std::string::npos);
  CHECK(text.find("99.9?") != std::string::npos);
  CHECK(text.find("assumed: May of upper's yield") != std::string::npos);
  CHECK(text.find(
            fmt::format("no size to solve with: size: choose on pipe '{}'; 'leat size' chooses it",
                        farm.pipes[1].name)) != std::string::npos);
  CHECK(text.find("needs 2.38") != std::string::npos);
}

TEST_CASE("reading as CSV has one row a pipe under the JSON's keys") {
  const std::string text = read_csv(sample_farm(), {});
  CHECK(text.substr(0, text.find('\n')) ==
        "name,from,to,size,bore_mm,wall_mm,roughness_mm,friction_factor,hazen_williams_c,length_m,"
        "from_level_m,to_level_m,forward_k,valve_k,shut,one_way,rating_kPa,rating_assumed");
  CHECK(std::count(text.begin(), text.end(), '\n') == 4);
}

}  // namespace leat::render
