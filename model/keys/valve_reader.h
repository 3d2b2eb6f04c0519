// A valve in a pipe and how far it is open.
#pragma once

#include <optional>

#include "model/farm/farm.h"
#include "model/keys/placement_reader.h"

namespace leat::model {

/// A valve and how far it is open.
[[nodiscard]] std::optional<Valve> read_valve(const YamlNode& node,
                                              const PipeReach& reach,
                                              ProblemList& problems);

}  // namespace leat::model
