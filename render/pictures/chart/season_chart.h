// The picture of a season, one sheet: needs met by month, levels, where the water went.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "render/pictures/chart/profile_chart.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

/// Draws a season that converged. SVG and PNG are the same bytes for the same answer and the same
/// gnuplot; a PDF carries the time it was made.
[[nodiscard]] ChartResult draw_season(const model::Farm& farm,
                                      const solver::SeasonAnswer& answer,
                                      const ChartOptions& options);

/// The script gnuplot is given. What the farm's owner wrote stands in it only as data.
[[nodiscard]] std::string season_script(const model::Farm& farm,
                                        const solver::SeasonAnswer& answer,
                                        const ChartOptions& options);

}  // namespace leat::render
