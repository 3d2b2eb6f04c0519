// Open water: springs, creeks, ponds and tanks.
#pragma once

#include "model/farm/farm.h"
#include "model/keys/map_reader.h"

namespace leat::model {

/// Each reads one place; what could not be read keeps its default, and a problem says so.
[[nodiscard]] Spring read_spring(const YamlNode& node, const Subject& subject, Reading& reading);
[[nodiscard]] Creek read_creek(const YamlNode& node, const Subject& subject, Reading& reading);
[[nodiscard]] Pond read_pond(const YamlNode& node, const Subject& subject, Reading& reading);
[[nodiscard]] Tank read_tank(const YamlNode& node, const Subject& subject, Reading& reading);

}  // namespace leat::model
