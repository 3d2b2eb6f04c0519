// Weather: so far only the air's temperature is used, for what stock drink.
#pragma once

#include "model/farm.h"
#include "model/map_reader.h"

namespace leat::model {

/// Reads `weather`: the mean of tmin and tmax becomes `farm.air`; the rest is checked and kept for
/// the season.
void read_weather(const YamlNode& node, SourcePosition key, Farm& farm, Reading& reading);

}  // namespace leat::model
