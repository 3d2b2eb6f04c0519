#include "render/commands/solve/json_report.h"

#include <algorithm>
#include <cstddef>

#include "render/commands/solve/answer_json.h"
#include "render/document/json_text.h"

namespace leat::render {

namespace {

// Divided, not multiplied by 1e-3: 96400 Pa must read 96.4.
Json kilopascals(double pressure_pascals) {
  return json_number(pressure_pascals / 1e3);
}

}  // namespace

std::string solve_json(const model::Farm& farm,
                       const solver::SteadyAnswer& answer,
                       model::UnitSystem units) {
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
  object["flags"] = flag_list(answer.flags, units);
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
