#include "render/pictures/chart/season_bars.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "render/commands/season/season_water_report.h"
#include "render/document/text_table.h"
#include "render/words/number_text.h"
#include "render/words/volume_scale.h"

namespace leat::render {

namespace {

constexpr std::string_view brings_fill = "#1c5d99";
constexpr std::string_view takes_fill = "#c6d5e3";
constexpr std::string_view bar_border = "#1c5d99";
constexpr double row_height = 22.0;

/// A whole number of per cent; "under 1" for what would read as none.
std::string percent_of(double part, double whole) {
  const double percent = 100.0 * part / whole;
  return percent < 0.5 ? "under 1" : decimal_text(percent, 0);
}

double draw_bars(ChartSheet& sheet,
                 const std::string& title,
                 const std::vector<PondCause>& causes,
                 model::UnitSystem units,
                 double top) {
  double greatest_m3 = 0.0;
  double brought_m3 = 0.0;
  for (const PondCause& cause : causes) {
    greatest_m3 = std::max(greatest_m3, cause.volume_m3);
    brought_m3 += cause.brings ? cause.volume_m3 : 0.0;
  }
  const VolumeScale scale = volume_scale(greatest_m3, units);
  sheet.write(14.0, top + ChartSheet::line_height / 2.0, fmt::format("{}, {}", title, scale.unit));
  double y = top + ChartSheet::line_height + 4.0;
  constexpr double longest = (SeasonLayout::right - SeasonLayout::left) * 0.75;
  for (const PondCause& cause : causes) {
    if (!(cause.volume_m3 > 1e-6 * greatest_m3)) {
      continue;  // nothing to see
    }
    const double middle = y + row_height / 2.0;
    const double end = SeasonLayout::left + longest * cause.volume_m3 / greatest_m3;
    write_name(sheet, middle, cause.name);
    sheet.box(SeasonLayout::left,
              y + 4.0,
              std::max(end, SeasonLayout::left + 1.0),
              y + row_height - 4.0,
              cause.brings ? brings_fill : takes_fill,
              bar_border);
    std::string figure = volume_text(cause.volume_m3, scale);
    if (!cause.brings && brought_m3 > 0.0) {
      figure += fmt::format(" ({} %)", percent_of(cause.volume_m3, brought_m3));
    }
    sheet.write(end + 10.0, middle, figure);
    y += row_height;
  }
  return y - top;
}

}  // namespace

double draw_balance(ChartSheet& sheet,
                    const model::Farm& farm,
                    const solver::SeasonAnswer& answer,
                    model::UnitSystem units,
                    double top) {
  constexpr double gap = 14.0;
  constexpr std::size_t most_ponds = 3;
  const solver::WaterBalance& balance = answer.balance;
  double y = top;
  y += draw_bars(sheet,
                 "where the water went",
                 {{"came in", balance.in_m3, true},
                  {"out of the stores", std::max(0.0, -balance.stored_m3), true},
                  {"drunk, delivered", balance.out_m3, false},
                  {"ran over, to waste", balance.spilled_m3, false},
                  {"sun and seepage", balance.lost_m3, false},
                  {"into the stores", std::max(0.0, balance.stored_m3), false}},
                 units,
                 y);
  for (std::size_t i = 0; i < std::min(most_ponds, answer.ponds.size()); ++i) {
    y += gap;
    y += draw_bars(sheet,
                   cut_to_width(farm.places.at(answer.ponds[i].place).name, widest_name),
                   pond_causes(answer.ponds[i]),
                   units,
                   y);
  }
  if (answer.ponds.size() > most_ponds) {
    y += ChartSheet::line_height;
    sheet.write(
        14.0,
        y - ChartSheet::line_height / 2.0,
        fmt::format("{} more ponds: leat season --csv=ponds", answer.ponds.size() - most_ponds));
  }
  return y - top;
}

}  // namespace leat::render
