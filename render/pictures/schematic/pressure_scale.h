// Colours for gauge pressure: a scale that diverges from the air's own pressure.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"

namespace leat::render {

/// One step of the scale: a Graphviz colour and the words for the legend.
struct PressureStep {
  std::string colour;  // ColorBrewer scheme of nine classes, brown to blue-green, white at zero
  std::string words;   // "suction 10 to 30 kPa"
};

/// The steps from the strongest suction to the highest pressure, in the units shown.
[[nodiscard]] std::vector<PressureStep> pressure_steps(model::UnitSystem units);

/// Colour of a gauge pressure [Pa]. Within 0.1 kPa of the air's pressure it is white.
[[nodiscard]] std::string pressure_colour(double pressure_Pa, model::UnitSystem units);

/// White: air pressure, or nothing known.
[[nodiscard]] std::string no_pressure_colour();

}  // namespace leat::render
