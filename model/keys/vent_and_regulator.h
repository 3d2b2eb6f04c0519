// The keys of what opens a pipe to the air, and of what holds its pressure.
#pragma once

#include <optional>
#include <vector>

#include "model/keys/pipe_part.h"

namespace leat::model {

[[nodiscard]] const Keys<PipePart<Vent>>& vent_keys();
[[nodiscard]] const Keys<PipePart<Regulator>>& regulator_keys();

/// A list of distances, or of standpipes.
[[nodiscard]] std::vector<Vent> read_vents(const YamlNode& node,
                                           const PipeReach& reach,
                                           LoadContext& context);

[[nodiscard]] std::optional<Regulator> read_regulator(const YamlNode& node,
                                                      const PipeReach& reach,
                                                      LoadContext& context);

}  // namespace leat::model
