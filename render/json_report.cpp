#include "render/json_report.h"

#include <algorithm>
#include <cstddef>

#include "render/answer_json.h"
#include "render/json_text.h"

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

Json summit_json(const solver::SummitAnswer& summit) {
  Json row;
  row["at_m"] = json_number(summit.at_m);
  row["elevation_m"] = json_number(summit.elevation_m);
  row["absolute_head_m"] = json_number(summit.absolute_head_m);
  row["margin_m"] = json_number(summit.margin_m);
  row["parted"] = summit.parted;
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

}  // namespace

std::string solve_json(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  Json object = head_of_answer("solve", farm, answer);
  object["iterations"] = answer.iterations;
  object["air_pressure_kPa"] = kilopascals(answer.air_pressure_Pa);
  object["vapour_pressure_kPa"] = kilopascals(answer.vapour_pressure_Pa);
  object["places"] = Json::array();
  object["pipes"] = Json::array();
  if (answer.converged) {
    for (std::size_t i = 0; i < farm.places.size(); ++i) {
      object["places"].push_back(place_json(farm.places[i], answer.places.at(i)));
    }
    for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
      object["pipes"].push_back(pipe_json(farm, farm.pipes[i], answer.pipes.at(i)));
    }
  }
  object["flags"] = flag_list(answer);
  if (!answer.converged) {
    object["problems"] = problem_list(answer.problems);
  }
  return json_text(object);
}

std::string draw_json(const model::Farm& farm,
                      const solver::SteadyAnswer& answer,
                      const std::string& written) {
  Json object = head_of_answer("draw", farm, answer);
  object["wrote"] = written;
  object["flags"] = flag_list(answer);
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
