#include "render/words/table_cells.h"

#include <algorithm>
#include <cmath>

#include "render/words/number_text.h"

namespace leat::render {

std::string flow_cell(std::optional<double> flow_m3_s, model::UnitSystem units) {
  return flow_m3_s
             ? flow_number_text(cubic_metres_per_second(solver::unless_still(*flow_m3_s)), units)
             : "-";
}

std::string level_cell(std::optional<double> level_m, model::UnitSystem units) {
  return level_m ? level_number_text(elevation_metres(*level_m), units) : "-";
}

std::string length_cell(std::optional<double> length_m, model::UnitSystem units) {
  return length_m ? length_number_text(metres(*length_m), units) : "-";
}

std::string pressure_cell(std::optional<double> pressure_Pa, model::UnitSystem units) {
  return pressure_Pa ? pressure_number_text(pascals(*pressure_Pa), units) : "-";
}

std::string velocity_cell(std::optional<double> velocity_m_s, model::UnitSystem units) {
  return velocity_m_s ? velocity_number_text(metres_per_second(*velocity_m_s), units) : "-";
}

std::string volume_cell(std::optional<double> volume_m3, model::UnitSystem units) {
  return volume_m3 ? volume_number_text(cubic_metres(*volume_m3), units) : "-";
}

std::string money_cell(std::optional<double> money, model::UnitSystem /*any*/) {
  constexpr int money_decimals = 2;
  return money ? decimal_text(*money, money_decimals) : "-";
}

std::string percent_text(const std::optional<double>& met) {
  if (!met || !std::isfinite(*met)) {
    return "-";
  }
  return decimal_text(*met < solver::met_limit ? std::floor(std::max(0.0, *met) * 100.0) : 100.0,
                      0);
}

std::string share_cell(const std::optional<double>& met) {
  const std::string percent = percent_text(met);
  return percent == "-" ? percent : percent + " %";
}

std::string share_of_need_cell(std::optional<double> met, model::UnitSystem /*any*/) {
  return share_cell(met);
}

}  // namespace leat::render
