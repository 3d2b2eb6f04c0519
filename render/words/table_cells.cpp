#include "render/words/table_cells.h"

#include <cmath>

#include <fmt/format.h>

#include "render/words/number_text.h"
#include "solver/findings/states.h"

namespace leat::render {

std::string flow_cell(std::optional<double> flow_m3_s, model::UnitSystem units) {
  if (!flow_m3_s) {
    return "-";
  }
  const double shown = std::abs(*flow_m3_s) < solver::still_flow_m3_s ? 0.0 : *flow_m3_s;
  return flow_number_text(cubic_metres_per_second(shown), units);
}

std::string level_cell(std::optional<double> level_m, model::UnitSystem units) {
  return level_m ? level_number_text(elevation_metres(*level_m), units) : "-";
}

std::string pressure_cell(std::optional<double> pressure_Pa, model::UnitSystem units) {
  return pressure_Pa ? pressure_number_text(pascals(*pressure_Pa), units) : "-";
}

std::string share_cell(std::optional<double> share) {
  if (!share) {
    return "-";
  }
  const double percent = *share < solver::met_limit ? std::floor(*share * 100.0) : 100.0;
  return fmt::format("{} %", decimal_text(percent, 0));
}

}  // namespace leat::render
