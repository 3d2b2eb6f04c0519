// The laws of water in a pipe written a second time, as plainly as can be and apart from
// solver/hydraulics: slow, without slopes, for checking an answer only.
#pragma once

#include "model/farm/farm.h"

namespace leat::solver::audit {

/// Kinematic viscosity of water [m2/s] at 0 to 40 C (colder or warmer is taken as at the nearer
/// end): Kestin, Sokolov, Wakeham, J. Phys. Chem. Ref. Data 7 (1978) 941, over Kell's density;
/// constants from memory. Another formula than the solver's; they agree within 0.5 %.
[[nodiscard]] double plain_viscosity_m2_s(Temperature water);

/// Density of water [kg/m3]: Kell, J. Chem. Eng. Data 20 (1975) 97, constants from memory.
[[nodiscard]] double plain_density_kg_m3(Temperature water);

/// Vapour pressure of water [Pa]: Buck's formula of 1996, constants from memory; within 0.5 %.
[[nodiscard]] double plain_vapour_pressure_Pa(Temperature water);

/// Air pressure at an altitude [Pa]: the rounded barometric formula 101325 (1 - 2.25577e-5
/// z)^5.25588 (US Standard Atmosphere 1976, constants from memory); within 0.1 % to 3000 m.
[[nodiscard]] double plain_air_pressure_Pa(Length altitude);

/// Velocity head v^2/2g [m] of a flow in a round bore.
[[nodiscard]] double plain_velocity_head_m(double bore_m, double flow_m3_s);

/// Friction factor of Darcy and Weisbach: 64/Re to 2000, Colebrook and White from 4000, between
/// them the cubic of ln(f Re^2) over ln Re that meets both in value and slope (shared design, 4).
[[nodiscard]] double plain_friction_factor(double reynolds, double relative_roughness);

/// Head [m] that friction takes from a flow (0 or more) over a length of pipe of that size.
[[nodiscard]] double plain_friction_m(const model::PipeSize& size,
                                      double length_m,
                                      double flow_m3_s,
                                      double viscosity_m2_s);

/// Energy head [m] in front of a hole that lets a flow into air.
[[nodiscard]] double plain_orifice_m(double bore_m, double discharge_coefficient, double flow_m3_s);

}  // namespace leat::solver::audit
