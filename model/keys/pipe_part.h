// A part of a pipe while it is read: what sits at one of its points.
#pragma once

#include "model/keys/key.h"
#include "model/keys/placement_reader.h"

namespace leat::model {

/// The part, and what its reader must know about the pipe.
template <class Part>
struct PipePart {
  Part part;
  const PipeReach& reach;
};

/// start, end, or a distance, as the schema defines it.
inline constexpr std::string_view placement_definition = "placement";

/// Where a part sits: start, end, or a distance along the pipe.
template <class Slot>
[[nodiscard]] auto placement(Slot slot) {
  const auto read = [slot](const KeyValue& value, auto& draft) {
    const auto place = read_placement(value.node, value.what, draft.reach, value.problems());
    if (place) {
      std::invoke(slot, draft) = *place;
    }
    return place.has_value();
  };
  return Value<decltype(read)>{Kind{placement_definition}, read};
}

}  // namespace leat::model
