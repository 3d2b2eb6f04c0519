#include "render/commands/solve/csv_report.h"

#include "render/commands/solve/answer_columns.h"

namespace leat::render {

std::string places_csv(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  return csv_text(place_columns(), place_rows(farm, answer));
}

std::string pipes_csv(const model::Farm& farm, const solver::SteadyAnswer& answer) {
  return csv_text(pipe_columns(), pipe_rows(farm, answer));
}

std::string flags_csv(const std::vector<solver::Finding>& findings, model::UnitSystem units) {
  return csv_text(flag_columns(), flag_rows(findings, units));
}

}  // namespace leat::render
