// A sheet of lines, boxes and texts placed by hand, as a gnuplot script: where the parts of a
// picture stand is decided here, and gnuplot only draws them. Measures are dots of the sheet, from
// its left and upper edges; a sheet 10.4 in wide holds `sheet_width`.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "render/pictures/chart/gnuplot_script.h"

namespace leat::render {

enum class TextSide { Left, Centre, Right };  // where the text is held

class ChartSheet {
 public:
  static constexpr double sheet_width = 1000.0;
  static constexpr double text_size = 13.0;
  static constexpr double title_size = 17.0;
  static constexpr double line_height = 19.0;

  /// Width of a text in dots, as the face is on the average.
  [[nodiscard]] static double width_of(std::string_view text, double size = text_size);

  /// Whatever stands in `text` is written and never run. `y` is the middle of its line.
  void write(double x,
             double y,
             std::string_view text,
             TextSide side = TextSide::Left,
             double size = text_size,
             std::string_view colour = ink);
  /// A filled box; an empty `border` leaves it without one.
  void box(double left,
           double top,
           double right,
           double bottom,
           std::string_view fill,
           std::string_view border = {});
  /// A straight line behind all else.
  void rule(double x1, double y1, double x2, double y2, std::string_view colour = faint);
  /// A line through points, in front of rules and boxes. Dashed lines are "dt (6,4)" or such.
  void line(const Polyline& points,
            double width,
            std::string_view colour,
            std::string_view dashes = {});

  /// The script of a sheet so high. It needs at least one line.
  [[nodiscard]] std::string script(ChartFormat format, double height) const;

  static constexpr std::string_view ink = "#1a1a1a";
  static constexpr std::string_view grey = "#5a5a5a";
  static constexpr std::string_view faint = "#dcdcdc";

 private:
  std::vector<std::string> words_;
  std::string placed_;  // boxes, rules and texts
  std::string blocks_;  // lines' points
  std::vector<std::string> plots_;
};

}  // namespace leat::render
