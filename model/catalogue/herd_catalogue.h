// What stock drink, by animal and air temperature, each row with its source.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/farm/farm.h"
#include "model/quantity/quantity.h"

namespace leat::model {

/// Water a day at one air temperature, for one head (for `heads_per_unit` heads of the animal).
struct HerdRow {
  Temperature air;
  Volume per_head_per_day;
};

/// One kind of stock: rows from cold to hot. With one row the amount does not depend on the air.
struct CatalogueAnimal {
  std::string name;
  std::vector<HerdRow> rows;
  std::size_t summer_row = 0;  // index of the row used when the air's temperature is not known
  std::string source;
  int heads_per_unit = 1;  // rows are for so many heads: layers are listed per 100
};

[[nodiscard]] const std::vector<CatalogueAnimal>& herd_catalogue();

/// The animal with that name (case and extra spaces do not matter), or nullptr.
[[nodiscard]] const CatalogueAnimal* find_animal(std::string_view name);

/// Water for one head a day: straight between rows, constant outside; the summer row without `air`.
/// One hen's share where the rows are per 100: 200 layers are `200 * daily_water(...)`.
[[nodiscard]] Volume daily_water(const CatalogueAnimal& animal, std::optional<Temperature> air);

}  // namespace leat::model
