// What is told of the spread of an answer: a place's low, likely and high, the summits that may
// part, what makes the spread.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "render/document/columns.h"
#include "solver/uncertainty/spread.h"

namespace leat::render {

struct PlaceSpreadRow {
  const model::Place& place;
  const solver::PlaceAnswer& answer;  // of the farm as written
  const solver::PlaceSpread& spread;
};

struct SummitSpreadRow {
  const model::Farm& farm;
  const solver::SummitSpread& spread;
};

[[nodiscard]] std::vector<PlaceSpreadRow> place_spread_rows(const model::Farm& farm,
                                                            const solver::Spread& spread);
[[nodiscard]] std::vector<SummitSpreadRow> summit_spread_rows(
    const model::Farm& farm, const std::vector<solver::SummitSpread>& summits);

[[nodiscard]] const Columns<PlaceSpreadRow>& place_spread_columns();
[[nodiscard]] const Columns<SummitSpreadRow>& summit_spread_columns();
[[nodiscard]] const Columns<solver::Cause>& cause_columns();

}  // namespace leat::render
