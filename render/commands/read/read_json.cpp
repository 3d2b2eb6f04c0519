#include <optional>
#include <string>

#include "model/keys/size_choice.h"
#include "render/commands/read/place_reading.h"
#include "render/commands/read/read_columns.h"
#include "render/commands/read/read_report.h"

namespace leat::render {

namespace {

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
  object["air_pressure_kPa"] =
      json_number(scale::pressure.printed(air_pressure_of(farm.site).in_si()));
  object["water_C"] = water_json(farm.site, month);
  object["places"] = json_rows(place_reading_columns(), place_reading_rows(farm, month));
  object["pipes"] = json_rows(pipe_reading_columns(), pipe_reading_rows(farm, month));
  object["notes"] = farm.notes;
  object["unsolved"] = model::sizes_to_choose(farm);
  return json_text(object);
}

std::string read_csv(const model::Farm& farm, std::optional<model::Month> month) {
  return csv_text(pipe_reading_columns(), pipe_reading_rows(farm, month));
}

}  // namespace leat::render
