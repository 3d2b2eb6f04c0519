#include "render/commands/solve/answer_json.h"

#include "render/commands/solve/answer_columns.h"
#include "render/commands/solve/spread_columns.h"

namespace leat::render {

Json head_of_answer(const char* command,
                    const model::Farm& farm,
                    const solver::SteadyAnswer& answer) {
  Json object;
  object["format"] = 1;
  object["command"] = command;
  object["farm"] = farm.name;
  object["case"] = solver::word_of(answer.load_case);
  object["broken"] = answer.broken ? Json(*answer.broken) : Json(nullptr);
  object["month"] = answer.month ? Json(model::name_of(*answer.month)) : Json(nullptr);
  object["converged"] = answer.converged;
  return object;
}

Json place_json(const model::Place& place, const solver::PlaceAnswer& answer) {
  return json_row(place_columns(), PlaceRow{place, answer});
}

Json pipe_json(const model::Farm& farm, const model::Pipe& pipe, const solver::PipeAnswer& answer) {
  return json_row(pipe_columns(), PipeRow{farm, pipe, answer});
}

Json flag_json(const solver::Finding& finding, model::UnitSystem units) {
  return json_row(flag_columns(), FlagRow{finding, units});
}

Json flag_list(const std::vector<solver::Finding>& findings, model::UnitSystem units) {
  return json_rows(flag_columns(), flag_rows(findings, units));
}

Json problem_list(const std::vector<model::Diagnostic>& problems) {
  return json_rows(problem_columns(), problems);
}

Json summits_json(const model::Farm& farm, const std::vector<solver::SummitSpread>& summits) {
  return json_rows(summit_spread_columns(), summit_spread_rows(farm, summits));
}

Json causes_json(const std::vector<solver::Cause>& causes) {
  return json_rows(cause_columns(), causes);
}

}  // namespace leat::render
