// Figures as the drawing writes them: three digits, never an exponent, never a minus zero. Between
// figure and unit stands a joined space (running_text.h).
#pragma once

#include <string>

#include "model/farm/farm.h"

namespace leat::render {

/// A number with about three digits: 0.034, 0.81, 2.4, 34, 340. Not finite: "-".
[[nodiscard]] std::string short_number(double value);

[[nodiscard]] std::string length_figure(double metres, model::UnitSystem units);
/// A level on the farm's datum, to a tenth of a foot or a hundredth of a metre: "26.3 m".
[[nodiscard]] std::string level_figure(double metres, model::UnitSystem units);
[[nodiscard]] std::string flow_figure(double cubic_metres_per_second, model::UnitSystem units);
/// The number alone, for "gets 0.8 of 2.4 gal/min".
[[nodiscard]] std::string flow_number(double cubic_metres_per_second, model::UnitSystem units);
/// The size of a pressure without its sign: "12 kPa".
[[nodiscard]] std::string pressure_size_figure(double pascals, model::UnitSystem units);
/// "suction 12 kPa", "30 kPa", or "no pressure" within 0.1 kPa.
[[nodiscard]] std::string pressure_figure(double pascals, model::UnitSystem units);

}  // namespace leat::render
