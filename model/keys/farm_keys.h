// The keys at the top of a farm file.
#pragma once

#include "model/keys/key.h"

namespace leat::model {

/// The keys of the whole file. Sections that hold the farm's things are only described here: their
/// things are read in an order of their own, since they name each other (farm_file.cpp).
[[nodiscard]] const Keys<Farm>& farm_keys();

}  // namespace leat::model
