// What a kind of valve is called.
#pragma once

#include "model/farm/farm.h"

namespace leat::render {

/// "gate valve", "ball valve".
[[nodiscard]] inline const char* valve_word(model::ValveType type) {
  return type == model::ValveType::Gate ? "gate valve" : "ball valve";
}

}  // namespace leat::render
