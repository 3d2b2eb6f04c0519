#include "render/commands/season/season_json.h"

#include "render/commands/season/season_answer_columns.h"
#include "render/commands/solve/answer_json.h"
#include "render/words/season_notes.h"
#include "render/words/season_problems.h"

namespace leat::render {

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
  object["balance"] =
      answer.converged ? json_row(balance_columns(), answer.balance) : Json(nullptr);
  const solver::SeasonAnswer none;
  const solver::SeasonAnswer& told = answer.converged ? answer : none;  // no half answers
  object["troughs"] = json_rows(trough_season_columns(), trough_season_rows(farm, told, units));
  object["tanks"] = json_rows(tank_season_columns(), season_rows(farm, told.tanks));
  object["ponds"] = json_rows(pond_season_columns(), season_rows(farm, told.ponds));
  object["first_short"] = json_rows(first_short_columns(), season_rows(farm, told.first_short));
  object["flags"] = flag_list(told.flags, units);
  object["pumps"] = json_rows(season_pump_columns(), season_pumps(told));
  object["rams"] = json_rows(season_ram_columns(), season_rams(told));
  object["broken_siphons"] = json_rows(broken_siphon_columns(), season_rows(farm, told.broken));
  object["notes"] = season_note_texts(told.notes, units);
  if (!answer.converged) {
    object["problems"] = problem_list(season_diagnostics(answer.problems, farm.file));
  }
  return json_text(object);
}

}  // namespace leat::render
