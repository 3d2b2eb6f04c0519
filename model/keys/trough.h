// The keys of a trough with a float valve.
#pragma once

#include "model/keys/key.h"

namespace leat::model {

[[nodiscard]] const Keys<Trough>& trough_keys();

/// Reads a trough (codes need-and-herd, within-beside-rate, contradictory).
[[nodiscard]] Trough read_trough(const MapReader& map, LoadContext& context);

}  // namespace leat::model
