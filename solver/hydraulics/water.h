// What water itself is like: density, viscosity and vapour pressure by temperature.
#pragma once

#include "model/quantity/quantity.h"

namespace leat::hydraulics {

/// Water at one temperature and atmospheric pressure.
struct Water {
  double density_kg_m3 = 0.0;
  double kinematic_viscosity_m2_s = 0.0;
  double vapour_pressure_Pa = 0.0;
};

/// Properties of water from 0 to 40 C (outside, the nearest end is taken).
/// Sources: density CIPM 2001 (Tanaka et al.), viscosity IAPWS SR6-08, vapour pressure Wagner and
/// Pruss 1993; they agree with IAPWS-95/IF97 (table D1) within 0.01 % (density), 0.2 % (the
/// others).
[[nodiscard]] Water water_at(Temperature temperature);

}  // namespace leat::hydraulics
