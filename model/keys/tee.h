// The keys of a tee, where pipes meet.
#pragma once

#include "model/keys/key.h"

namespace leat::model {

[[nodiscard]] const Keys<Tee>& tee_keys();

}  // namespace leat::model
