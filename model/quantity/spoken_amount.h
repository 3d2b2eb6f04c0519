// Amounts inside sentences, in the units the farm shows: few digits, never an exponent.
#pragma once

#include <string>

#include "model/quantity/unit_system.h"

namespace leat::solver {

/// "6.2 ft" or "1.9 m"; under 10 cm "3 in" or "8 cm".
[[nodiscard]] std::string spoken_length(double length_m, model::UnitSystem units);
/// "between 0 m and 8.89 m": two distances in one unit.
[[nodiscard]] std::string spoken_reach(double from_m, double to_m, model::UnitSystem units);
/// A level on the farm's datum, to the tenth of a foot or the centimetre.
[[nodiscard]] std::string spoken_level(double elevation_m, model::UnitSystem units);
/// A level not to be passed: rounded down to the tenth of a foot or the centimetre.
[[nodiscard]] std::string spoken_level_at_most(double elevation_m, model::UnitSystem units);
/// How much lower a point at a level must come at least, and the level that gives: "8.0 m lower, at
/// 89.20 m". Rounded up to the tenth of a foot or metre from the level as `spoken_level` writes it,
/// so that the three figures add up.
[[nodiscard]] std::string spoken_lowering(double elevation_m,
                                          double lower_m,
                                          model::UnitSystem units);
/// "2.4 gal/min" or "9.1 L/min".
[[nodiscard]] std::string spoken_flow(double flow_m3_s, model::UnitSystem units);
/// The figure of a flow alone, in the unit of `spoken_flow`.
[[nodiscard]] std::string spoken_flow_figure(double flow_m3_s, model::UnitSystem units);
/// "350 gal" or "1.3 m3" (under 1 m3 in litres).
[[nodiscard]] std::string spoken_volume(double volume_m3, model::UnitSystem units);
/// "43 psi" or "300 kPa".
[[nodiscard]] std::string spoken_pressure(double pressure_Pa, model::UnitSystem units);
/// "40 s", "6 min", "2 h 10 min"; never "0 s".
[[nodiscard]] std::string spoken_time(double time_s);
/// "3.1 ft/s" or "0.95 m/s".
[[nodiscard]] std::string spoken_velocity(double velocity_m_s, model::UnitSystem units);

}  // namespace leat::solver
