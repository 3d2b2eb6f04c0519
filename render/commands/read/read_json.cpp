#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "model/keys/size_choice.h"
#include "render/commands/read/pipe_reading.h"
#include "render/commands/read/place_reading.h"
#include "render/commands/read/read_report.h"
#include "render/commands/solve/csv_report.h"
#include "render/document/json_text.h"

namespace leat::render {

namespace {

Json litres_per_second_json(std::optional<Flow> flow) {
  return flow ? json_number(in_litres_per_second(*flow)) : Json(nullptr);
}

Json months_json(const PlaceFlow& flow) {
  if (!flow.varies || !flow.is_given) {
    return nullptr;
  }
  Json months = Json::array();
  for (const std::optional<Flow>& month : flow.by_month) {
    months.push_back(litres_per_second_json(month));
  }
  return months;
}

Json place_json(const model::Farm& farm,
                const model::Place& place,
                std::optional<model::Month> month) {
  const PlaceFlow flow = flow_of(farm, place);
  const std::optional<Flow> single = single_flow(flow, month);
  const std::optional<Volume> daily = daily_volume(place, single);
  Json row;
  row["name"] = place.name;
  row["kind"] = model::kind_word(place);
  row["elevation_m"] = json_number(in_metres(model::level_of(place, month)));
  row["flow_word"] = flow.is_given ? Json(flow.word) : Json(nullptr);
  row["flow_L_s"] = litres_per_second_json(single);
  row["flow_by_month_L_s"] = months_json(flow);
  row["per_day_L"] = daily ? json_number(in_litres(*daily)) : Json(nullptr);
  row["within_h"] = model::is_trough(place) ? json_number(in_hours(model::drinking_time_of(place)))
                                            : Json(nullptr);
  return row;
}

Json length_mm_json(const std::optional<Length>& length) {
  return length ? json_number(in_millimetres(*length)) : Json(nullptr);
}

Json pipe_json(const model::Farm& farm,
               const model::Pipe& pipe,
               std::optional<model::Month> month) {
  const PipeReading reading = pipe_reading(farm, pipe, month);
  const model::PipeSize& size = pipe.size;
  Json row;
  row["name"] = pipe.name;
  row["from"] = farm.places.at(pipe.from).name;
  row["to"] = farm.places.at(pipe.to).name;
  row["size"] = size.text;
  row["bore_mm"] = json_number(in_millimetres(size.bore));
  row["wall_mm"] = length_mm_json(size.wall);
  row["roughness_mm"] = json_number(in_millimetres(size.roughness));
  row["friction_factor"] = json_number(size.friction_factor);
  row["hazen_williams_c"] = json_number(size.hazen_williams_c);
  row["length_m"] = json_number(in_metres(pipe.length));
  row["from_level_m"] = json_number(in_metres(reading.from_level));
  row["to_level_m"] = json_number(in_metres(reading.to_level));
  row["forward_k"] = json_number(reading.forward_k);
  row["valve_k"] = json_number(reading.valve_k);
  row["shut"] = reading.is_shut;
  row["one_way"] = reading.is_one_way;
  row["rating_kPa"] = size.rating ? json_number(size.rating->in_si() / 1e3) : Json(nullptr);
  row["rating_assumed"] = size.rating_assumed;
  return row;
}

Json water_json(const model::Site& site, std::optional<model::Month> month) {
  if (site.water.varies && !month) {
    Json months = Json::array();
    for (const Temperature& temperature : site.water.by_month) {
      months.push_back(json_number(in_celsius(temperature)));
    }
    return months;
  }
  return json_number(in_celsius(site.water.at(month)));
}

}  // namespace

std::string read_json(const model::Farm& farm, std::optional<model::Month> month) {
  Json object;
  object["format"] = 1;
  object["command"] = "read";
  object["farm"] = farm.name;
  object["month"] = month ? Json(model::name_of(*month)) : Json(nullptr);
  object["show"] = farm.show == model::UnitSystem::Us ? "US" : "metric";
  object["datum"] = farm.datum ? Json(*farm.datum) : Json(nullptr);
  object["altitude_m"] = json_number(in_metres(farm.site.altitude));
  object["air_pressure_kPa"] = json_number(air_pressure_of(farm.site).in_si() / 1e3);
  object["water_C"] = water_json(farm.site, month);
  object["places"] = Json::array();
  for (const model::Place& place : farm.places) {
    object["places"].push_back(place_json(farm, place, month));
  }
  object["pipes"] = Json::array();
  for (const model::Pipe& pipe : farm.pipes) {
    object["pipes"].push_back(pipe_json(farm, pipe, month));
  }
  object["notes"] = farm.notes;
  object["unsolved"] = model::sizes_to_choose(farm);
  return json_text(object);
}

std::string read_csv(const model::Farm& farm, std::optional<model::Month> month) {
  std::string text;
  for (const model::Pipe& pipe : farm.pipes) {
    const Json row = pipe_json(farm, pipe, month);
    std::vector<std::string> keys;
    std::vector<std::string> cells;
    for (const auto& item : row.items()) {
      keys.push_back(item.key());
      cells.push_back(csv_cell(item.value()));
    }
    text += text.empty() ? csv_line(keys) : "";
    text += csv_line(cells);
  }
  return text;
}

}  // namespace leat::render
