// Air and water at the farm.
#pragma once

#include "model/farm/farm.h"
#include "model/keys/map_reader.h"

namespace leat::model {

/// Reads `site`; `key` is where that word stands.
[[nodiscard]] Site read_site(const YamlNode& node, SourcePosition key, LoadContext& context);

}  // namespace leat::model
