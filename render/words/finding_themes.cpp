#include "render/words/finding_themes.h"

#include "model/quantity/spoken_amount.h"

namespace leat::render {

std::string FindingTold::length(double value_m) const {
  return solver::spoken_length(value_m, units_);
}

std::string FindingTold::level(double value_m) const {
  return solver::spoken_level(value_m, units_);
}

std::string FindingTold::flow(double value_m3_s) const {
  return solver::spoken_flow(value_m3_s, units_);
}

std::string FindingTold::pressure(double value_Pa) const {
  return solver::spoken_pressure(value_Pa, units_);
}

std::string FindingTold::velocity(double value_m_s) const {
  return solver::spoken_velocity(value_m_s, units_);
}

}  // namespace leat::render
