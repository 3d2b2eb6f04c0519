// The levels of ponds and tanks through a season, each in a strip of its own.
#pragma once

#include "render/pictures/chart/chart_sheet.h"
#include "render/pictures/chart/season_layout.h"

namespace leat::render {

/// Draws the strips from `top` down, ponds first, and returns the height they take: 0 where the
/// answer holds no levels. Of very many stores the first six are drawn and the rest counted.
[[nodiscard]] double draw_levels(ChartSheet& sheet,
                                 const SeasonLayout& layout,
                                 const model::Farm& farm,
                                 const solver::SeasonAnswer& answer,
                                 model::UnitSystem units,
                                 double top);

}  // namespace leat::render
