#include "render/commands/solve/answer_json.h"

#include "render/words/finding_figures.h"
#include "render/words/finding_sentence.h"

namespace leat::render {

namespace {

Json litres_per_second(double flow_m3_s) {
  return json_number(flow_m3_s * 1e3);
}

Json litres_per_second(const std::optional<double>& flow_m3_s) {
  return flow_m3_s ? litres_per_second(*flow_m3_s) : Json(nullptr);
}

// Divided, not multiplied by 1e-3: 96400 Pa must read 96.4.
Json kilopascals(double pressure_pascals) {
  return json_number(pressure_pascals / 1e3);
}

Json kilopascals(const std::optional<double>& pressure_pascals) {
  return pressure_pascals ? kilopascals(*pressure_pascals) : Json(nullptr);
}

Json summit_json(const solver::SummitAnswer& summit) {
  Json row;
  row["at_m"] = json_number(summit.at_m);
  row["elevation_m"] = json_number(summit.elevation_m);
  row["absolute_head_m"] = json_number(summit.absolute_head_m);
  row["margin_m"] = json_number(summit.margin_m);
  row["parted"] = summit.parted;
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

Json place_json(const model::Place& place, const solver::PlaceAnswer& answer) {
  Json row;
  row["name"] = place.name;
  row["kind"] = model::kind_word(place);
  row["elevation_m"] = json_number(answer.elevation_m);
  row["head_m"] = json_number(answer.head_m);
  row["level_m"] = json_number(answer.level_m);
  row["pressure_kPa"] = kilopascals(answer.pressure_Pa);
  row["delivered_L_s"] = litres_per_second(answer.delivered_m3_s);
  row["need_L_s"] = litres_per_second(answer.need_m3_s);
  row["met"] = json_number(answer.met);
  row["spill_L_s"] = litres_per_second(answer.spill_m3_s);
  row["state"] = solver::word_of(answer.state);
  return row;
}

Json pipe_json(const model::Farm& farm, const model::Pipe& pipe, const solver::PipeAnswer& answer) {
  Json row;
  row["name"] = pipe.name;
  row["from"] = farm.places.at(pipe.from).name;
  row["to"] = farm.places.at(pipe.to).name;
  row["flow_L_s"] = litres_per_second(answer.flow_m3_s);
  row["velocity_m_s"] = json_number(answer.velocity_m_s);
  row["reynolds"] = json_number(answer.reynolds);
  row["head_loss_m"] = json_number(answer.head_loss_m);
  row["lowest_pressure_kPa"] = kilopascals(answer.lowest_pressure_Pa);
  row["lowest_at_m"] = json_number(answer.lowest_at_m);
  row["highest_pressure_kPa"] = kilopascals(answer.highest_pressure_Pa);
  row["part_full_m"] = json_number(answer.part_full_m);
  row["summit"] = answer.summit ? summit_json(*answer.summit) : Json(nullptr);
  row["summits"] = Json::array();
  for (const solver::SummitAnswer& summit : answer.summits) {
    row["summits"].push_back(summit_json(summit));
  }
  row["state"] = solver::word_of(answer.state);
  return row;
}

Json flag_json(const solver::Finding& finding, model::UnitSystem units) {
  Json row;
  row["code"] = solver::word_of(finding.code);
  row["severity"] = solver::word_of(finding.severity);
  row["where"] = finding.where;
  row["text"] = sentence_of(finding, units);
  row["value"] = json_number(printed_figure(finding.value, finding.measure));
  row["limit"] = json_number(printed_figure(finding.limit, finding.measure));
  row["unit"] = unit_word(finding.measure);
  row["case"] = solver::word_of(finding.load_case);
  return row;
}

Json flag_list(const std::vector<solver::Finding>& findings, model::UnitSystem units) {
  Json rows = Json::array();
  for (const solver::Finding& finding : findings) {
    rows.push_back(flag_json(finding, units));
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

Json summits_json(const model::Farm& farm, const std::vector<solver::SummitSpread>& summits) {
  Json rows = Json::array();
  for (const solver::SummitSpread& summit : summits) {
    Json row;
    row["pipe"] = farm.pipes[summit.pipe].name;
    row["at_m"] = json_number(summit.at_m);
    row["chance_parts"] = json_number(summit.chance_parts);
    rows.push_back(std::move(row));
  }
  return rows;
}

Json causes_json(const std::vector<solver::Cause>& causes) {
  Json rows = Json::array();
  for (const solver::Cause& cause : causes) {
    Json row;
    row["input"] = cause.input;
    row["share"] = json_number(cause.share);
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace leat::render
