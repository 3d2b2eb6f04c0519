// The picture of a profile: distance against level, drawn by gnuplot.
#pragma once

#include <string>

#include "model/farm/farm.h"
#include "render/pictures/chart/gnuplot_script.h"
#include "solver/profile/profile.h"

namespace leat::render {

struct ChartOptions {
  ChartFormat format = ChartFormat::Svg;
  model::UnitSystem units = model::UnitSystem::Metric;
};

/// The picture, or why it could not be drawn.
struct ChartResult {
  std::string bytes;
  std::string problem;  // one sentence without a full stop; empty when it was drawn
  std::string hint;
};

/// Draws a profile that has no problems. SVG and PNG are the same bytes for the same answer and the
/// same gnuplot; a PDF carries the time it was made.
[[nodiscard]] ChartResult draw_profile(const model::Farm& farm,
                                       const solver::Profile& profile,
                                       const ChartOptions& options);

/// The script gnuplot is given. Names and other words of the farm's owner stand in it only as data,
/// one a line behind a bar, never as part of a command.
[[nodiscard]] std::string profile_script(const model::Farm& farm,
                                         const solver::Profile& profile,
                                         const ChartOptions& options);

}  // namespace leat::render
