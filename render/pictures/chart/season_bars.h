// Where the water of a season came from and went, as bars of one length scale.
#pragma once

#include "render/pictures/chart/chart_sheet.h"
#include "render/pictures/chart/season_layout.h"

namespace leat::render {

/// Draws the farm's balance and each pond's from `top` down and returns the height they take. Of
/// very many ponds the first three are drawn.
[[nodiscard]] double draw_balance(ChartSheet& sheet,
                                  const model::Farm& farm,
                                  const solver::SeasonAnswer& answer,
                                  model::UnitSystem units,
                                  double top);

}  // namespace leat::render
