// The air's own pressure by altitude.
#pragma once

#include "model/quantity/quantity.h"

namespace leat::hydraulics {

/// Absolute pressure of the standard atmosphere at an altitude above sea level, -5 km to 11 km
/// (outside, the nearest end is taken).
/// Source: US Standard Atmosphere 1976 (as ISO 2533), lowest layer; the geometric altitude is
/// turned into the geopotential one first.
[[nodiscard]] Pressure air_pressure_at(Length altitude);

}  // namespace leat::hydraulics
