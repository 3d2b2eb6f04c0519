// What a farm's pipes and fittings come to: lengths, counts and, where the file prices them, money.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"

namespace leat::render::report {

/// Pipe of one size.
struct PipeItem {
  model::PipeSize size;
  double length_m = 0.0;  // of all pipes of that size, along the pipe
  double stock_m = 0.0;   // of it, what lies in store
  std::optional<double> per_metre;
  /// Of what is to be bought beside the stock; none where that is something and has no price.
  std::optional<double> cost;
};

/// Pieces of one kind: the catalogue's fittings, valves, floats, vents, regulators, pumps, rams.
struct FittingItem {
  std::string name;
  int count = 0;
  std::optional<double> each;
  std::optional<double> cost;
};

struct BillOfMaterials {
  std::vector<PipeItem> pipes;        // in the order the file names the sizes
  std::vector<FittingItem> fittings;  // in the order the file names them
  double priced = 0.0;                // sum of all that has a price
  bool has_prices = false;            // the file holds any price at all
  bool is_complete = false;           // everything to be bought has a price
};

/// Counts what the file names. A price or stock of a size holds for the pipes of that size as the
/// catalogue spells it; one without a rating for those with any. Losses written as `k` are no
/// pieces and are left out.
[[nodiscard]] BillOfMaterials bill_of_materials(const model::Farm& farm);

}  // namespace leat::render::report
