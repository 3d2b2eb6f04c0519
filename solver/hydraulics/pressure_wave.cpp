#include "solver/hydraulics/pressure_wave.h"

#include <algorithm>
#include <cmath>

#include "model/quantity/quantity.h"

namespace leat::hydraulics {

double wave_speed_m_s(double density_kg_m3, double modulus_Pa, double bore_m, double wall_m) {
  const double yielding = water_bulk_modulus_Pa / modulus_Pa * bore_m / wall_m;
  return std::sqrt(water_bulk_modulus_Pa / density_kg_m3 / (1.0 + yielding));
}

double sudden_stop_head_m(double wave_speed_m_s, double velocity_m_s) {
  return wave_speed_m_s * velocity_m_s / gravity_m_s2;
}

double slow_stop_head_m(double length_velocity_m2_s, double closing_s) {
  return 2.0 * length_velocity_m2_s / (gravity_m_s2 * closing_s);
}

double surge_head_m(double wave_speed_m_s,
                    double velocity_m_s,
                    double length_velocity_m2_s,
                    double closing_s) {
  const double sudden = sudden_stop_head_m(wave_speed_m_s, velocity_m_s);
  return closing_s > 0.0 ? std::min(sudden, slow_stop_head_m(length_velocity_m2_s, closing_s))
                         : sudden;
}

}  // namespace leat::hydraulics
