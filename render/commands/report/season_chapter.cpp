#include <fmt/format.h>

#include "render/commands/report/chapters.h"
#include "render/commands/season/season_water_report.h"
#include "render/pictures/chart/season_chart.h"
#include "render/words/number_text.h"
#include "render/words/season_notes.h"
#include "render/words/season_problems.h"
#include "render/words/season_words.h"

namespace leat::render::report {

Chapter season_chapter(const Subject& subject,
                       const solver::SeasonAnswer& season,
                       const std::string& dates_chosen) {
  Chapter chapter{"season", "The season", {}};
  if (!season.converged) {
    const std::string why = season.problems.empty()
                                ? std::string("no balance was found")
                                : season_diagnostic(season.problems.front()).text;
    chapter.blocks.emplace_back(Paragraph{fmt::format("No season was computed: {}.", why)});
    return chapter;
  }
  std::string dates = fmt::format("From {} to {}{}, in steps of {}; levels in {}.",
                                  model::date_text(season.from),
                                  model::date_text(season.to),
                                  dates_chosen.empty() ? "" : " (" + dates_chosen + ")",
                                  step_words(season.step_s),
                                  length_unit(subject.units));
  chapter.blocks.emplace_back(Paragraph{dates});
  const std::vector<std::string> sentences = season_sentences(subject.farm, season, subject.units);
  chapter.blocks.emplace_back(Paragraph{sentences.front()});
  chapter.blocks.emplace_back(
      Listing{Listing::Kind::Unnumbered, {sentences.begin() + 1, sentences.end()}});
  const ChartResult drawn = draw_season(subject.farm, season, {ChartFormat::Svg, subject.units});
  const std::string words = fmt::format(
      "Season of {}: share of the needs met by month, levels, and where the water "
      "went. {} The tables below hold the figures.",
      subject.farm.name,
      sentences.front());
  chapter.blocks.push_back(picture_or_reason(
      drawn.bytes, problem_and_hint(drawn.problem, drawn.hint), "season-", "Season", words));
  for (const TextTable& table : season_tables(subject.farm, season, subject.units)) {
    chapter.blocks.emplace_back(Figures{table, "place"});
  }
  const std::vector<TextTable> water = water_tables(subject.farm, season, subject.units);
  for (std::size_t i = 0; i < water.size(); ++i) {
    // Tanks and ponds are listed by name; then each pond's causes.
    chapter.blocks.emplace_back(Figures{water[i], i < 2 ? "name" : "cause"});
  }
  chapter.blocks.emplace_back(Paragraph{pond_remark(season)});
  chapter.blocks.emplace_back(Figures{lifted_table(season, subject.units), "name"});
  chapter.blocks.emplace_back(Paragraph{balance_sentence(season, subject.units)});
  chapter.blocks.emplace_back(
      Findings{told_findings(season.flags, {subject.units, Detail::Short})});
  chapter.blocks.emplace_back(
      Listing{Listing::Kind::Unnumbered, season_note_texts(season.notes, subject.units)});
  return chapter;
}

}  // namespace leat::render::report
