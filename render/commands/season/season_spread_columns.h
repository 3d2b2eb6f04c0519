// What is told of the spread of a season: low, likely and high at troughs and stores, lines that
// may break.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "render/commands/season/season_answer_columns.h"
#include "render/document/columns.h"
#include "solver/uncertainty/season_spread.h"

namespace leat::render {

using TroughSpreadRow = SeasonRow<solver::TroughSpread>;
using StoreSpreadRow = SeasonRow<solver::StoreSpread>;
using BreakSpreadRow = SeasonRow<solver::BreakSpread>;

[[nodiscard]] const Columns<TroughSpreadRow>& trough_spread_columns();
[[nodiscard]] const Columns<StoreSpreadRow>& tank_spread_columns();
/// A tank's, and when it stands full.
[[nodiscard]] const Columns<StoreSpreadRow>& pond_spread_columns();
[[nodiscard]] const Columns<BreakSpreadRow>& break_spread_columns();

}  // namespace leat::render
