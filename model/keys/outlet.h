// The keys of an outlet: an open end, a tap or a hose.
#pragma once

#include "model/keys/key.h"

namespace leat::model {

[[nodiscard]] const Keys<Outlet>& outlet_keys();

}  // namespace leat::model
