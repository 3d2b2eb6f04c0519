// The keys at the top of a farm file.
#pragma once

#include <span>
#include <string>

#include "model/keys/key.h"

namespace leat::model {

/// The keys of the whole file. Sections that hold the farm's things are only described here: their
/// things are read in an order of their own, since they name each other (farm_file.cpp).
[[nodiscard]] const Keys<Farm>& farm_keys();

/// The row of the last key of a path from the top of the file down ("pipes", "main", "valve",
/// "open"; in a list the number of the item); nullptr where the path ends at a name, an item, a
/// month or at nothing that has a row.
[[nodiscard]] const KeyRow* key_row(std::span<const std::string> path);

}  // namespace leat::model
