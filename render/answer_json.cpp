#include "render/answer_json.h"

namespace leat::render {

namespace {

Json flag_json(const solver::Flag& flag) {
  Json row;
  row["code"] = flag.code;
  row["severity"] = solver::word_of(flag.severity);
  row["where"] = flag.where;
  row["text"] = flag.text;
  row["value"] = json_number(flag.value);
  row["limit"] = json_number(flag.limit);
  row["unit"] = flag.unit;
  row["case"] = solver::word_of(flag.load_case);
  return row;
}

Json problem_json(const model::Diagnostic& problem) {
  Json row;
  row["severity"] = model::severity_word(problem.severity);
  row["code"] = problem.code;
  row["file"] = problem.file.empty() ? Json(nullptr) : Json(problem.file);
  row["line"] = problem.position.line > 0 ? Json(problem.position.line) : Json(nullptr);
  row["column"] = problem.position.column > 0 ? Json(problem.position.column) : Json(nullptr);
  row["text"] = problem.text;
  row["hint"] = problem.hint.empty() ? Json(nullptr) : Json(problem.hint);
  return row;
}

}  // namespace

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

Json flag_list(const solver::SteadyAnswer& answer) {
  Json rows = Json::array();
  for (const solver::Flag& flag : answer.flags) {
    rows.push_back(flag_json(flag));
  }
  return rows;
}

Json problem_list(const std::vector<model::Diagnostic>& problems) {
  Json rows = Json::array();
  for (const model::Diagnostic& problem : problems) {
    rows.push_back(problem_json(problem));
  }
  return rows;
}

}  // namespace leat::render
