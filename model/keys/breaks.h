// Floats that break, each with its day.
#pragma once

#include "model/keys/key.h"
#include "model/keys/name_registry.h"

namespace leat::model {

/// {north: 2026-08-10}, into `farm.breaks` (code no-float).
void read_breaks(const YamlNode& node, const NameRegistry& names, Farm& farm, LoadContext& context);

}  // namespace leat::model
