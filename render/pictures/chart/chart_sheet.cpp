#include "render/pictures/chart/chart_sheet.h"

#include <fmt/format.h>

#include "render/document/text_table.h"
#include "render/words/running_text.h"

namespace leat::render {

double ChartSheet::width_of(std::string_view text, double size) {
  constexpr double letter_width = 0.56;  // of the type's size; measured 0.50 on the average
  return letter_width * size * display_width(text);
}

void ChartSheet::write(double x,
                       double y,
                       std::string_view text,
                       TextSide side,
                       double size,
                       std::string_view colour) {
  const char* const held = side == TextSide::Left     ? "left"
                           : side == TextSide::Centre ? "center"
                                                      : "right";
  words_.push_back(printable(text));
  placed_ += fmt::format(
      "set label told({}) at {:.2f},{:.2f} {} noenhanced font \",{:.1f}\" tc rgb \"{}\" front\n",
      words_.size(),
      x,
      y,
      held,
      size,
      colour);
}

void ChartSheet::box(double left,
                     double top,
                     double right,
                     double bottom,
                     std::string_view fill,
                     std::string_view border) {
  placed_ += fmt::format(
      "set object rectangle from {:.2f},{:.2f} to {:.2f},{:.2f} back fc rgb \"{}\" fs solid 1 {}\n",
      left,
      top,
      right,
      bottom,
      fill,
      border.empty() ? std::string("noborder")
                     : fmt::format("border lc rgb \"{}\" lw 0.8", border));
}

void ChartSheet::rule(double x1, double y1, double x2, double y2, std::string_view colour) {
  placed_ += fmt::format(
      "set arrow from {:.2f},{:.2f} to {:.2f},{:.2f} nohead lw 0.8 lc rgb \"{}\" back\n",
      x1,
      y1,
      x2,
      y2,
      colour);
}

void ChartSheet::line(const Polyline& points,
                      double width,
                      std::string_view colour,
                      std::string_view dashes) {
  if (points.empty()) {
    return;
  }
  const std::string name = fmt::format("line{}", plots_.size() + 1);
  blocks_ += data_block(name, {points});
  plots_.push_back(fmt::format("${} using 1:2 with lines lw {} {} lc rgb \"{}\"",
                               name,
                               width,
                               dashes.empty() ? std::string_view("dt solid") : dashes,
                               colour));
}

std::string ChartSheet::script(ChartFormat format, double height) const {
  std::string text = terminal_line(format, sheet_width, height, text_size) + blocks_;
  // A bar before each line: no text can be taken for the end of the block.
  text += "$words << END_OF_WORDS\n";
  for (const std::string& word : words_) {
    text += '|' + word + '\n';
  }
  text += "END_OF_WORDS\nbehind_bar(s) = s[2:*]\ntold(i) = behind_bar($words[i])\n";
  text +=
      "set encoding utf8\nset decimalsign \".\"\nunset key\nunset border\nunset xtics\n"
      "unset ytics\nset lmargin at screen 0\nset rmargin at screen 1\nset bmargin at screen 0\n"
      "set tmargin at screen 1\n";
  text += fmt::format("set xrange [0:{}]\nset yrange [{:.2f}:0]\n", sheet_width, height);
  return text + placed_ + fmt::format("plot {}\n", fmt::join(plots_, ", \\\n     "));
}

}  // namespace leat::render
