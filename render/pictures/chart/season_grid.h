// Needs met, a row a trough and a column a month, in shades with the figure in each cell.
#pragma once

#include <string>

#include "render/pictures/chart/chart_sheet.h"
#include "render/pictures/chart/season_layout.h"

namespace leat::render {

/// A cell's fill and the colour of the figure in it. One hue, darker the less is met, so that it
/// says the same printed in grey; figures have at least 4.5 to 1 against their cell (W3C, WCAG 2).
struct CellShade {
  std::string fill;
  std::string figure;
};
[[nodiscard]] CellShade shade_of(double met);

/// Draws the grid from `top` down and returns the height it takes: 0 where no trough has a need.
[[nodiscard]] double draw_needs_met(ChartSheet& sheet,
                                    const SeasonLayout& layout,
                                    const model::Farm& farm,
                                    const solver::SeasonAnswer& answer,
                                    double top);

}  // namespace leat::render
