// Pieces of gnuplot's scripts that do not depend on what is drawn.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace leat::render {

enum class ChartFormat { Svg, Pdf, Png };

/// A point in the chart's own units.
struct ChartPoint {
  double x = 0.0;
  double y = 0.0;
};
using Polyline = std::vector<ChartPoint>;

/// The line that chooses the kind of picture. Width, height and size of type are in dots, of which
/// a sheet 10.4 in wide holds `width`: A4 or Letter lying down.
[[nodiscard]] std::string terminal_line(ChartFormat format,
                                        double width,
                                        double height,
                                        double text_size);

/// A named block of data, its pieces parted so that no line joins them.
[[nodiscard]] std::string data_block(std::string_view name, const std::vector<Polyline>& pieces);

/// The least of 1, 2, 5, 10, 20 ... (and their tenths) that is not below `least`, above 0.
[[nodiscard]] double round_step(double least);

}  // namespace leat::render
