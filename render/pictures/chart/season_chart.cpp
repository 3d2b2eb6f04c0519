#include "render/pictures/chart/season_chart.h"

#include <algorithm>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "render/document/text_table.h"
#include "render/io/gnuplot.h"
#include "render/pictures/chart/season_bars.h"
#include "render/pictures/chart/season_grid.h"
#include "render/pictures/chart/season_levels.h"
#include "render/pictures/schematic/plain_label.h"
#include "render/words/finding_sentence.h"
#include "render/words/season_words.h"

namespace leat::render {

namespace {

constexpr double margin = 14.0;
constexpr double part_gap = 22.0;

/// What is said above the picture, in lines.
std::vector<std::string> titles_of(const model::Farm& farm,
                                   const solver::SeasonAnswer& answer,
                                   model::UnitSystem units) {
  constexpr int widest = 122;
  constexpr std::size_t most_lines = 7;  // the table has the rest
  std::vector<std::string> said{fmt::format("Season from {} to {}, steps of {}. Drawn by leat.{}",
                                            model::date_text(answer.from),
                                            model::date_text(answer.to),
                                            step_words(answer.step_s),
                                            farm.datum ? " Levels: " + *farm.datum : ""),
                                season_verdict(farm, answer)};
  for (const solver::SiphonBroken& broken : answer.broken) {
    said.push_back(
        fmt::format("The siphon from {} breaks on {} and stays still until it is "
                    "primed again.",
                    farm.places.at(broken.spring).name,
                    model::date_text(broken.on)));
  }
  for (const solver::Finding& finding : answer.flags) {
    if (finding.severity == solver::Severity::Danger) {
      said.push_back("Danger: " + sentence_of(finding, units));
    }
  }
  std::vector<std::string> lines;
  for (const std::string& text : said) {
    for (std::string& line : broken_into_lines(printable(text), widest)) {
      lines.push_back(std::move(line));
    }
  }
  lines.resize(std::min(lines.size(), most_lines));
  return lines;
}

double draw_titles(ChartSheet& sheet,
                   const model::Farm& farm,
                   const solver::SeasonAnswer& answer,
                   model::UnitSystem units) {
  constexpr int widest_title = 78;
  double y = 22.0;
  sheet.write(
      margin, y, cut_to_width(farm.name, widest_title), TextSide::Left, ChartSheet::title_size);
  y += 24.0;
  for (const std::string& line : titles_of(farm, answer, units)) {
    sheet.write(margin, y, line);
    y += ChartSheet::line_height;
  }
  sheet.line({{margin, y}, {ChartSheet::sheet_width - margin, y}}, 0.8, "#8a8a8a");
  return y;
}

}  // namespace

std::string season_script(const model::Farm& farm,
                          const solver::SeasonAnswer& answer,
                          const ChartOptions& options) {
  ChartSheet sheet;
  const SeasonLayout layout = season_layout(answer);
  double y = draw_titles(sheet, farm, answer, options.units) + part_gap / 2.0;
  const auto below = [&y](double height) { y += height > 0.0 ? height + part_gap : 0.0; };
  below(draw_needs_met(sheet, layout, farm, answer, y));
  below(draw_levels(sheet, layout, farm, answer, options.units, y));
  below(draw_balance(sheet, farm, answer, options.units, y));
  return sheet.script(options.format, y);
}

ChartResult draw_season(const model::Farm& farm,
                        const solver::SeasonAnswer& answer,
                        const ChartOptions& options) {
  GnuplotResult drawn = run_gnuplot(season_script(farm, answer, options));
  return {std::move(drawn.bytes), std::move(drawn.problem), std::move(drawn.hint)};
}

}  // namespace leat::render
