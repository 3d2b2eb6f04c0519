#include "solver/hydraulics/intake_cover.h"

#include <algorithm>
#include <cmath>

#include "model/quantity/quantity.h"

namespace leat::hydraulics {

double intake_cover_needed_m(double bore_m, double velocity_m_s) {
  const double froude = std::abs(velocity_m_s) / std::sqrt(gravity_m_s2 * bore_m);
  return std::max(least_intake_cover_m, bore_m * (1.0 + 2.3 * froude));
}

}  // namespace leat::hydraulics
