#include "render/pictures/chart/gnuplot_script.h"

#include <cmath>

#include <fmt/format.h>

namespace leat::render {

std::string terminal_line(ChartFormat format, double width, double height, double text_size) {
  constexpr std::string_view face = "DejaVu Sans";
  constexpr double inches = 10.4;
  constexpr double points_to_inch = 72.0;
  switch (format) {
    case ChartFormat::Svg:
      return fmt::format(
          "set terminal svg size {},{} font \"{},{}\" background \"white\" noenhanced\n",
          width,
          height,
          face,
          text_size);
    case ChartFormat::Pdf: {
      // This terminal takes a point of type for 1/54 in and a line's width for half of itself:
      // measured on its own output, as its manual does not say.
      constexpr double type_to_point = 54.0 / 72.0;
      constexpr double line_to_point = 2.0;
      const double scale = inches * points_to_inch / width;
      return fmt::format(
          "set terminal pdfcairo size {}in,{:.4f}in font \"{},{}\" fontscale {:.4f} "
          "linewidth {:.4f} noenhanced\n",
          inches,
          inches * height / width,
          face,
          text_size,
          scale * type_to_point,
          scale * line_to_point);
    }
    case ChartFormat::Png: {
      constexpr double finer = 2.0;  // dots of the picture to one of the sheet
      // A point of type is 1/72 in, a dot of this terminal 1/96 in.
      constexpr double dots_to_point = 72.0 / 96.0;
      return fmt::format(
          "set terminal pngcairo size {},{} font \"{},{}\" fontscale {} linewidth {} "
          "noenhanced\n",
          finer * width,
          finer * height,
          face,
          text_size,
          finer * dots_to_point,
          finer);
    }
  }
  return "";
}

std::string data_block(std::string_view name, const std::vector<Polyline>& pieces) {
  std::string text = fmt::format("${} << END_OF_DATA\n", name);
  for (const Polyline& piece : pieces) {
    for (const ChartPoint& point : piece) {
      text += fmt::format("{:.4f} {:.4f}\n", point.x, point.y);
    }
    text += '\n';
  }
  return text + "END_OF_DATA\n";
}

double round_step(double least) {
  double step = std::pow(10.0, std::floor(std::log10(least)));
  for (const double times : {1.0, 2.0, 5.0}) {
    if (step * times >= least) {
      return step * times;
    }
  }
  return step * 10.0;
}

}  // namespace leat::render
