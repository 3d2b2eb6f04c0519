// The keys of a creek, or a pool in one.
#pragma once

#include "model/keys/key.h"

namespace leat::model {

[[nodiscard]] const Keys<Creek>& creek_keys();

[[nodiscard]] Creek read_creek(const MapReader& map, LoadContext& context);

}  // namespace leat::model
