#include "render/commands/season/season_json.h"

#include "render/commands/solve/answer_json.h"
#include "render/commands/solve/json_report.h"
#include "render/document/json_text.h"
#include "render/words/season_problems.h"
#include "render/words/why_short.h"

namespace leat::render {

namespace {

Json date_json(const std::optional<model::Date>& date) {
  return date ? Json(model::date_text(*date)) : Json(nullptr);
}

Json balance_json(const solver::WaterBalance& balance) {
  Json row;
  row["in_m3"] = json_number(balance.in_m3);
  row["out_m3"] = json_number(balance.out_m3);
  row["stored_m3"] = json_number(balance.stored_m3);
  row["spilled_m3"] = json_number(balance.spilled_m3);
  row["lost_m3"] = json_number(balance.lost_m3);
  row["error_m3"] = json_number(balance.error_m3);
  return row;
}

Json month_json(const solver::MonthAtTrough& month, model::UnitSystem units) {
  Json row;
  row["month"] = model::name_of(month.month);
  row["got_m3"] = json_number(month.got_m3);
  row["need_m3"] = json_number(month.need_m3);
  row["met"] = json_number(month.met);
  row["dry_h"] = json_number(month.dry_h);
  row["reason"] = month.reason ? Json(why_short_text(*month.reason, units)) : Json(nullptr);
  return row;
}

Json trough_json(const model::Farm& farm,
                 const solver::TroughSeason& trough,
                 model::UnitSystem units) {
  Json row;
  row["name"] = farm.places.at(trough.place).name;
  row["first_dry"] = date_json(trough.first_dry);
  row["longest_dry_h"] = json_number(trough.longest_dry_h);
  row["months"] = Json::array();
  for (const solver::MonthAtTrough& month : trough.months) {
    row["months"].push_back(month_json(month, units));
  }
  return row;
}

Json tank_json(const model::Farm& farm, const solver::TankSeason& tank) {
  Json row;
  row["name"] = farm.places.at(tank.place).name;
  row["lowest_m"] = json_number(tank.lowest_m);
  row["lowest_on"] = model::date_text(tank.lowest_on);
  row["days_alone"] = json_number(tank.days_alone);
  return row;
}

Json pond_json(const model::Farm& farm, const solver::PondSeason& pond) {
  Json row;
  row["name"] = farm.places.at(pond.place).name;
  row["filled_on"] = date_json(pond.filled_on);
  row["lowest_m"] = json_number(pond.lowest_m);
  row["fill_m3"] = json_number(pond.fill_m3);
  row["rain_m3"] = json_number(pond.rain_m3);
  row["runoff_m3"] = json_number(pond.runoff_m3);
  row["evaporation_m3"] = json_number(pond.evaporation_m3);
  row["seepage_m3"] = json_number(pond.seepage_m3);
  row["stock_m3"] = json_number(pond.stock_m3);
  row["spilled_m3"] = json_number(pond.spilled_m3);
  row["levels"] = Json::array();
  for (const solver::DatedLevel& level : pond.levels) {
    Json point;
    point["on"] = model::date_text(level.on);
    point["level_m"] = json_number(level.level_m);
    row["levels"].push_back(std::move(point));
  }
  return row;
}

template <class Value, class Row>
Json rows_of(const model::Farm& farm, const std::vector<Value>& values, Row row) {
  Json rows = Json::array();
  for (const Value& value : values) {
    rows.push_back(row(farm, value));
  }
  return rows;
}

Json short_json(const model::Farm& farm, const solver::FirstShort& first) {
  Json row;
  row["name"] = farm.places.at(first.place).name;
  row["yield_L_s"] = json_number(first.yield_m3_s * 1e3);
  return row;
}

}  // namespace

std::string season_json(const model::Farm& farm,
                        const solver::SeasonAnswer& answer,
                        model::UnitSystem units) {
  Json object;
  object["format"] = 1;
  object["command"] = "season";
  object["farm"] = farm.name;
  object["from"] = model::date_text(answer.from);
  object["to"] = model::date_text(answer.to);
  object["step_s"] = json_number(answer.step_s);
  object["converged"] = answer.converged;
  object["balance"] = answer.converged ? balance_json(answer.balance) : Json(nullptr);
  const solver::SeasonAnswer none;
  const solver::SeasonAnswer& told = answer.converged ? answer : none;  // no half answers
  object["troughs"] = rows_of(
      farm, told.troughs, [units](const model::Farm& of, const solver::TroughSeason& trough) {
        return trough_json(of, trough, units);
      });
  object["tanks"] = rows_of(farm, told.tanks, tank_json);
  object["ponds"] = rows_of(farm, told.ponds, pond_json);
  object["first_short"] = rows_of(farm, told.first_short, short_json);
  object["flags"] = flag_list(told.flags, units);
  if (!answer.converged) {
    object["problems"] = problem_list(season_diagnostics(answer.problems, farm.file));
  }
  return json_text(object);
}

}  // namespace leat::render
