// What pressure a pipe may see: ratings from wall and resin, and what heat takes from them.
#pragma once

#include <optional>

#include "model/quantity/quantity.h"

namespace leat::hydraulics {

/// Rating of pipe sized by its inside: 2 HDS / (SIDR + 1) (ASTM D2239).
[[nodiscard]] Pressure rating_by_inside(Pressure hydrostatic_design_stress, double sidr);
/// Rating of pipe sized by its outside: 2 HDS / (DR - 1) (ISO equation; ASTM D3035, ISO 4427).
[[nodiscard]] Pressure rating_by_outside(Pressure hydrostatic_design_stress, double dr);

/// Share of its 20 C rating that polyethylene keeps at a temperature: ISO 4427-1 Annex A (20, 30,
/// 40 C: 1.00, 0.87, 0.74, straight between; from memory). 1 below 20 C. Empty above 40 C: no
/// rating.
[[nodiscard]] std::optional<double> polyethylene_derating(Temperature temperature);

/// Share of the rating that static pressure may take where no surge is computed: 0.72 (ASAE S376.1
/// as quoted by the Missouri Livestock Watering Systems Handbook, NRCS 1997).
inline constexpr double static_share_without_surge = 0.72;

/// How many tanks must break the pressure of a still fall, so that no leg stands under more than
/// `limit_m`: ceil(fall/limit) - 1 (reference E7). 0 where the fall is within the limit.
[[nodiscard]] int break_pressure_tanks(double fall_m, double limit_m);

}  // namespace leat::hydraulics
