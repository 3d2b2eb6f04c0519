// Numbers as people read them: digits by unit, no exponent, no minus zero, "-" for none. The
// process's locale changes nothing here.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/farm/farm.h"
#include "model/quantity/quantity.h"

namespace leat::render {

/// With so many decimals: "2.40"; half a last digit rounds away from zero. Not finite: "-".
[[nodiscard]] std::string decimal_text(double value, int decimals);
/// With two or three significant digits: "0.034", "0.81", "2.43", "34.1", "340".
[[nodiscard]] std::string significant_text(double value);
/// With so many decimals for a script; empty where there is none or it is not finite.
[[nodiscard]] std::string cell_text(std::optional<double> value, int decimals);

/// The words of the unit figures are shown in.
[[nodiscard]] std::string_view flow_unit(model::UnitSystem units);         // gal/min or L/min
[[nodiscard]] std::string_view length_unit(model::UnitSystem units);       // ft or m
[[nodiscard]] std::string_view bore_unit(model::UnitSystem units);         // in or mm
[[nodiscard]] std::string_view pressure_unit(model::UnitSystem units);     // psi or kPa
[[nodiscard]] std::string_view volume_unit(model::UnitSystem units);       // gal or L
[[nodiscard]] std::string_view velocity_unit(model::UnitSystem units);     // ft/s or m/s
[[nodiscard]] std::string_view temperature_unit(model::UnitSystem units);  // F or C

/// The figure alone, in that unit.
[[nodiscard]] std::string flow_number_text(Flow flow, model::UnitSystem units);
[[nodiscard]] std::string level_number_text(Elevation level, model::UnitSystem units);
[[nodiscard]] std::string length_number_text(Length length, model::UnitSystem units);
[[nodiscard]] std::string bore_number_text(Length bore, model::UnitSystem units);
[[nodiscard]] std::string pressure_number_text(Pressure pressure, model::UnitSystem units);
[[nodiscard]] std::string volume_number_text(Volume volume, model::UnitSystem units);
[[nodiscard]] std::string velocity_number_text(Velocity velocity, model::UnitSystem units);
[[nodiscard]] std::string temperature_number_text(Temperature temperature, model::UnitSystem units);

}  // namespace leat::render
