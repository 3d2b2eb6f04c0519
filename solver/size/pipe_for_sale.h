// The sizes a run may be laid in, and what they cost.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"

namespace leat::solver {

/// One size: to be bought, or only what lies in store, or both.
struct PipeForSale {
  model::PipeSize size;
  std::optional<double> per_metre;  // money, or the weight that stands for it; empty: stock only
  double stock_m = 0.0;
};

struct PipeList {
  std::vector<PipeForSale> sizes;  // from the narrowest bore to the widest
  bool has_prices = false;         // else `per_metre` is the wall's cross-section [mm2]
  std::string kind;                // what was taken from the catalogue where there are no prices
};

/// With prices of pipe: the sizes priced and those in stock. Without: the whole range of the kind
/// of pipe that the farm's other pipes and its stock are of ("in SIDR 15"; where there is none, of
/// SIDR 15 or, for a metric farm, PE100 SDR 11), the wall's cross-section standing for the price:
/// plastic pipe is sold by its weight (common practice, no source).
[[nodiscard]] PipeList pipe_list(const model::Farm& farm);

}  // namespace leat::solver
