// The path of a pipe: points of distance and elevation, listed or from a CSV file.
#pragma once

#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "model/keys/map_reader.h"

namespace leat::model {

/// Reads and checks a path: at least two points, the first at distance 0, distances that never
/// fall, no point twice. Nothing where a problem was reported.
[[nodiscard]] std::optional<std::vector<PathPoint>> read_path(const YamlNode& node,
                                                              const Subject& pipe,
                                                              LoadContext& context);

/// Slope length of a path, the sum of its straight stretches.
[[nodiscard]] Length slope_length(const std::vector<PathPoint>& path);

/// Whether the path turns downward at one of its inner points: a summit or a knee.
[[nodiscard]] bool has_summit(const std::vector<PathPoint>& path);

}  // namespace leat::model
