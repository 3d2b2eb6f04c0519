// Keys whose value is the name of a place or pipe.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "model/keys/key.h"
#include "model/keys/name_registry.h"

namespace leat::model {

/// The index of a named thing, or nothing where no such thing is known (reported). The draft that
/// is read holds the names of the farm.
template <class Slot>
[[nodiscard]] auto named(NameRegistry::Kind kind, Slot slot) {
  const auto read = [kind, slot](const KeyValue& value, auto& draft) {
    const std::string* const name = read_text(value.node, value.what, value.problems());
    if (name == nullptr) {
      return false;
    }
    const auto found =
        draft.names.look_up(kind, *name, value.node.position, value.what, value.problems());
    std::invoke(slot, draft) = found;
    return found.has_value();
  };
  return Value<decltype(read)>{Kind{"name"}, read};
}

}  // namespace leat::model
