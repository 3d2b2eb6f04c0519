#include "render/commands/solve/json_report.h"

#include "render/commands/solve/answer_columns.h"
#include "render/commands/solve/answer_json.h"
#include "render/commands/solve/pump_ram_columns.h"
#include "render/document/json_text.h"
#include "render/words/steady_notes.h"

namespace leat::render {

std::string solve_json(const model::Farm& farm,
                       const solver::SteadyAnswer& answer,
                       model::UnitSystem units) {
  Json object = head_of_answer("solve", farm, answer);
  object["iterations"] = answer.iterations;
  object["air_pressure_kPa"] = json_number(scale::pressure.printed(answer.air_pressure_Pa));
  object["vapour_pressure_kPa"] = json_number(scale::pressure.printed(answer.vapour_pressure_Pa));
  object["places"] = json_rows(place_columns(), place_rows(farm, answer));
  object["pipes"] = json_rows(pipe_columns(), pipe_rows(farm, answer));
  object["flags"] = flag_list(answer.flags, units);
  object["pumps"] = json_rows(pump_columns(), pumps_of(answer));
  object["rams"] = json_rows(ram_columns(), rams_of(answer));
  object["notes"] = steady_note_texts(answer.notes, units);
  if (!answer.converged) {
    object["problems"] = problem_list(answer.problems);
  }
  return json_text(object);
}

std::string draw_json(const model::Farm& farm,
                      const solver::SteadyAnswer& answer,
                      const std::string& written,
                      model::UnitSystem units) {
  Json object = head_of_answer("draw", farm, answer);
  object["wrote"] = written;
  object["flags"] = flag_list(answer.flags, units);
  return json_text(object);
}

std::string new_json(const std::string& written, const std::string& text) {
  Json object;
  object["format"] = 1;
  object["command"] = "new";
  object["wrote"] = written.empty() ? Json(nullptr) : Json(written);
  object["text"] = text;
  return json_text(object);
}

std::string problems_json(const std::optional<std::string>& command,
                          const std::vector<model::Diagnostic>& problems) {
  Json object;
  object["format"] = 1;
  object["command"] = command ? Json(*command) : Json(nullptr);
  object["problems"] = problem_list(problems);
  return json_text(object);
}

}  // namespace leat::render
