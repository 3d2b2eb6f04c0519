#include "render/pictures/chart/season_grid.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "render/words/table_cells.h"

namespace leat::render {

namespace {

using Colour = std::array<double, 3>;  // sRGB, 0 to 1

constexpr Colour all_met = {1.0, 1.0, 1.0};
constexpr Colour none_met = {0.07, 0.18, 0.31};

std::string hex_of(const Colour& colour) {
  std::string text = "#";
  for (const double part : colour) {
    text += fmt::format("{:02x}", static_cast<int>(std::lround(part * 255.0)));
  }
  return text;
}

/// Relative luminance of WCAG 2 (W3C), 0 to 1.
double luminance(const Colour& colour) {
  constexpr std::array<double, 3> weight = {0.2126, 0.7152, 0.0722};
  double sum = 0.0;
  for (std::size_t i = 0; i < colour.size(); ++i) {
    const double part = colour[i];
    sum += weight[i] * (part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4));
  }
  return sum;
}

}  // namespace

CellShade shade_of(double met) {
  const double share = std::clamp(met, 0.0, 1.0);
  Colour fill{};
  for (std::size_t i = 0; i < fill.size(); ++i) {
    fill[i] = none_met[i] + share * (all_met[i] - none_met[i]);
  }
  // Black and white have the same contrast against a luminance of 0.179.
  return {hex_of(fill), luminance(fill) > 0.179 ? "#000000" : "#ffffff"};
}

double draw_needs_met(ChartSheet& sheet,
                      const SeasonLayout& layout,
                      const model::Farm& farm,
                      const solver::SeasonAnswer& answer,
                      double top) {
  constexpr double row_height = 30.0;
  constexpr double gap = 1.5;  // white between the cells
  constexpr double least_type = 8.0;
  std::vector<const solver::TroughSeason*> shown;
  for (const solver::TroughSeason& trough : answer.troughs) {
    if (cell_of(trough).met) {
      shown.push_back(&trough);
    }
  }
  if (shown.empty() || layout.columns.empty()) {
    return 0.0;
  }
  double y = top + ChartSheet::line_height / 2.0;
  sheet.write(14.0, y, "need met, %");
  y += write_columns(sheet, layout, y) - ChartSheet::line_height / 2.0 + 4.0;
  const double room = layout.column_width() - 2.0 * gap - 4.0;
  const double type = std::min(ChartSheet::text_size, room / ChartSheet::width_of("100", 1.0));
  for (const solver::TroughSeason* const trough : shown) {
    write_name(sheet, y + row_height / 2.0, farm.places.at(trough->place).name);
    for (std::size_t i = 0; i < layout.columns.size(); ++i) {
      const SeasonCell cell = cell_of(*trough, layout.columns[i]);
      const double left = layout.column_left(i);
      const CellShade shade = shade_of(cell.met.value_or(1.0));
      sheet.box(left + gap,
                y + gap,
                left + layout.column_width() - gap,
                y + row_height - gap,
                shade.fill,
                "#b0b0b0");
      if (type >= least_type) {
        sheet.write(left + layout.column_width() / 2.0,
                    y + row_height / 2.0,
                    percent_text(cell.met),
                    TextSide::Centre,
                    type,
                    shade.figure);
      }
    }
    y += row_height;
  }
  return y - top;
}

}  // namespace leat::render
