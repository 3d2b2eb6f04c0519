// The keys that every place may have.
#pragma once

#include "model/keys/key.h"

namespace leat::model {

[[nodiscard]] const Keys<Place>& place_keys();

}  // namespace leat::model
