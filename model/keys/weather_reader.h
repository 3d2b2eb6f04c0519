// Weather by month or day by day, of which a moment of steady flow needs only the air's warmth.
#pragma once

#include "model/farm/farm.h"
#include "model/keys/map_reader.h"

namespace leat::model {

/// Reads `weather` into `farm.weather`; the mean of tmin and tmax by month becomes `farm.air`, for
/// what stock drink.
void read_weather(const YamlNode& node, SourcePosition key, Farm& farm, LoadContext& context);

}  // namespace leat::model
