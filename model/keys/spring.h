// The keys of a spring.
#pragma once

#include "model/keys/key.h"

namespace leat::model {

[[nodiscard]] const Keys<Spring>& spring_keys();

/// Reads a spring; its mouth must not stand above its overflow (code intake-above-water).
[[nodiscard]] Spring read_spring(const MapReader& map, LoadContext& context);

}  // namespace leat::model
