// `leat map FILE -o OUT`: the farm and its answer for map programs.
#pragma once

#include "model/keys/farm_file.h"
#include "render/cli/command_line.h"
#include "render/commands/command_result.h"

namespace leat::render {

/// Solves the farm and writes it as GeoJSON, to a file ending in .geojson or .json or to stdout.
/// What is not on the map, or hard to believe on it, goes to stderr. `loaded` holds a farm.
[[nodiscard]] CommandResult map_command(const CommandLine& line, const model::LoadedFarm& loaded);

}  // namespace leat::render
