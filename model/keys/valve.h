// The keys of a valve in a pipe, and how far it is open.
#pragma once

#include <optional>

#include "model/keys/pipe_part.h"

namespace leat::model {

/// A valve while it is read; without a sound type its opening cannot be judged.
struct ValveDraft : PipePart<Valve> {
  std::optional<ValveType> type;
};

[[nodiscard]] const Keys<ValveDraft>& valve_keys();

/// A valve and how far it is open (codes contradictory, valve-too-tight, valve-needs-place).
[[nodiscard]] std::optional<Valve> read_valve(const YamlNode& node,
                                              const PipeReach& reach,
                                              LoadContext& context);

}  // namespace leat::model
