// Pipe that suction flattens: buckling of an unsupported ring.
#pragma once

#include "model/quantity/quantity.h"

namespace leat::hydraulics {

/// Poisson's ratio of plastic pipe and the out-of-roundness taken for it (5 %, as pipe off a coil
/// has): reference H1 and H3.
inline constexpr double poisson_ratio = 0.45;
inline constexpr double usual_ovality = 0.05;

/// Moduli of polyethylene by how long the load lasts: a season of suction (the 50-year value), the
/// hours of priming, an instant (PPI handbook class values, from memory; reference H3).
inline constexpr double season_modulus_Pa = 200e6;
inline constexpr double priming_modulus_Pa = 448e6;
inline constexpr double instant_modulus_Pa = 896e6;

/// Outside pressure less inside that flattens a long round ring [Pa]: 2 E/(1 - nu^2)/(DR - 1)^3
/// (reference H1). DR is the outside diameter over the wall.
[[nodiscard]] double ring_buckling_Pa(double modulus_Pa, double dimension_ratio);

/// The older form of the same, 2.32 E/SDR^3, for SDR the outside diameter over the wall: lower, as
/// it divides by the cube of the outside. Published designs use it (reference H2).
[[nodiscard]] double ring_buckling_older_Pa(double modulus_Pa, double dimension_ratio);

/// Share of that left to a ring out of round by `ovality` (0.05 is 5 %): ((1 - q)/(1 + q)^2)^3,
/// from memory; 0.64 at 5 % (reference H3).
[[nodiscard]] double ovality_share(double ovality);

/// Share of its modulus at 20 C that polyethylene keeps: halved at 40 C (reference H3), evenly in
/// the logarithm. 1 below 20 C.
[[nodiscard]] double warm_modulus_share(Temperature temperature);

}  // namespace leat::hydraulics
