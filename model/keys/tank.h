// The keys of a tank.
#pragma once

#include "model/keys/key.h"

namespace leat::model {

[[nodiscard]] const Keys<Tank>& tank_keys();

/// Reads a tank (codes deeper-than-full, contradictory, intake-above-water).
[[nodiscard]] Tank read_tank(const MapReader& map, LoadContext& context);

}  // namespace leat::model
