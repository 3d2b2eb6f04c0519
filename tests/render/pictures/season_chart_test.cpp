// The picture of a season: nothing a farm's owner writes is ever run, figures can be read in grey.
#include "render/pictures/chart/season_chart.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>

#include <catch2/catch.hpp>

#include "render/io/gnuplot.h"
#include "render/pictures/chart/season_grid.h"
#include "render/pictures/chart/season_layout.h"
#include "tests/render/sample_season.h"

namespace leat::render {

namespace {

bool has_text(const std::string& text, const std::string& piece) {
  return text.find(piece) != std::string::npos;
}

bool gnuplot_is_there() {
  return run_gnuplot("set terminal svg\nplot [0:1] x\n").problem.empty();
}

/// Relative luminance of "#rrggbb" by W3C's WCAG 2.2, "relative luminance".
double luminance_of(const std::string& colour) {
  const auto part = [&colour](std::size_t at) {
    const double value = std::stoi(colour.substr(at, 2), nullptr, 16) / 255.0;
    return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5);
}

}  // namespace

TEST_CASE("whatever the places of a season are called is drawn as text and never run") {
  if (!gnuplot_is_there()) {
    WARN("gnuplot is not there");
    return;
  }
  const std::string trap = "leat-season-trap-sprung";
  std::filesystem::remove(trap);
  for (const std::string& name : {"\"; system(\"touch " + trap + "\") #",
                                  "'; system('touch " + trap + "') #",
                                  "`touch " + trap + "`",
                                  std::string("END_OF_WORDS"),
                                  std::string("ends in a backslash \\"),
                                  std::string("new\nline and \x01 and %s %d {/=90 x} a_b"),
                                  std::string("not UTF-8: \xff\xfe")}) {
    CAPTURE(name);
    model::Farm farm = season_farm();
    farm.name = name;
    farm.datum = name;
    for (model::Place& place : farm.places) {
      place.name = name;
    }
    solver::SeasonAnswer answer = season_answer();
    answer.flags[0].severity = solver::Severity::Danger;
    answer.flags[0].where = name;
    const ChartResult drawn =
        draw_season(farm, answer, {ChartFormat::Svg, model::UnitSystem::Metric});
    CHECK(drawn.problem.empty());
    CHECK(has_text(drawn.bytes, "</svg>"));
    CHECK_FALSE(std::filesystem::exists(trap));
  }
}

TEST_CASE("a season's picture is the same bytes each time") {
  if (!gnuplot_is_there()) {
    WARN("gnuplot is not there");
    return;
  }
  const ChartOptions options{ChartFormat::Svg, model::UnitSystem::Us};
  CHECK(draw_season(season_farm(), season_answer(), options).bytes ==
        draw_season(season_farm(), season_answer(), options).bytes);
}

TEST_CASE("a season without troughs and stores is still drawn") {
  if (!gnuplot_is_there()) {
    WARN("gnuplot is not there");
    return;
  }
  solver::SeasonAnswer answer;
  answer.from = {2026, 1, 1};
  answer.to = {2026, 1, 1};
  answer.converged = true;
  for (const ChartFormat format : {ChartFormat::Svg, ChartFormat::Png, ChartFormat::Pdf}) {
    CHECK(draw_season(season_farm(), answer, {format, model::UnitSystem::Metric}).problem.empty());
  }
}

TEST_CASE("every figure of the needs met can be read on its shade and in grey") {
  double before = -1.0;
  for (int percent = 0; percent <= 100; ++percent) {
    const CellShade shade = shade_of(percent / 100.0);
    const double cell = luminance_of(shade.fill);
    const double figure = luminance_of(shade.figure);
    const double contrast = (std::max(cell, figure) + 0.05) / (std::min(cell, figure) + 0.05);
    INFO(percent);
    CHECK(contrast >= 4.5);  // WCAG 2.2, success criterion 1.4.3
    CHECK(cell > before);    // less met is always darker
    before = cell;
  }
}

TEST_CASE("days stand evenly within their month and the season fills the sheet's width") {
  const SeasonLayout layout = season_layout(season_answer());
  REQUIRE(layout.columns.size() == 6);
  CHECK(layout.x_of({2026, 5, 1}) == Approx(SeasonLayout::left));
  CHECK(layout.x_of({2026, 6, 1}) == Approx(layout.column_left(1)));
  CHECK(layout.x_of({2026, 6, 16}) == Approx(layout.column_left(1) + layout.column_width() / 2.0));
  CHECK(layout.x_of({2026, 11, 1}) == Approx(SeasonLayout::right));
  CHECK(layout.x_of({2020, 1, 1}) == Approx(SeasonLayout::left));
}

TEST_CASE("cells of many months keep their figures and cells of very many years lose them") {
  solver::SeasonAnswer answer = season_answer();
  answer.to = {2028, 4, 30};  // 24 months
  const ChartOptions options{ChartFormat::Svg, model::UnitSystem::Metric};
  CHECK(has_text(season_script(season_farm(), answer, options), "\n|61\n"));
  answer.from = {2026, 1, 1};
  answer.to = {2090, 12, 31};  // 65 cells of 11 dots
  CHECK_FALSE(has_text(season_script(season_farm(), answer, options), "\n|93\n"));
  CHECK(season_layout(answer).columns.size() == 65);
}

}  // namespace leat::render
