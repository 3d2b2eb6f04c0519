#include "render/commands/season/season_report.h"

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "render/commands/season/season_answer_columns.h"
#include "render/commands/season/season_columns.h"
#include "render/commands/season/season_water_report.h"
#include "render/document/text_table.h"
#include "render/words/cautions.h"
#include "render/words/findings_text.h"
#include "render/words/number_text.h"
#include "render/words/season_notes.h"
#include "render/words/season_words.h"
#include "render/words/table_cells.h"
#include "render/words/volume_scale.h"
#include "render/words/why_short.h"

namespace leat::render {

namespace {

using Row = std::vector<std::string>;

/// More months than this are shown by year.
constexpr std::size_t most_months = 36;
/// Months beside each other: with a name of `widest_name` they take 98 columns.
constexpr std::size_t months_a_block = 12;

std::string heading(const model::Farm& farm,
                    const solver::SeasonAnswer& answer,
                    const SeasonTableOptions& options,
                    const Terminal& terminal) {
  const int width = text_width(terminal);
  const std::string title = fmt::format("{}: season from {} to {}",
                                        farm.name,
                                        model::date_text(answer.from),
                                        model::date_text(answer.to));
  std::string facts = fmt::format("steps of {}; ", step_words(answer.step_s));
  if (!options.dates_chosen.empty()) {
    facts += fmt::format("{}, as no dates are asked for; ", options.dates_chosen);
  }
  facts += fmt::format("levels in {}", length_unit(options.units));
  if (farm.datum) {
    facts += fmt::format(" above the datum '{}'", cut_to_width(*farm.datum, widest_text - 4));
  }
  return styled(cut_to_width(title, width), Style::Heading, terminal.colour) + '\n' +
         wrapped(facts, width, 0) + '\n';
}

/// The troughs that go short, least of their need met first.
std::vector<const solver::TroughSeason*> short_troughs(const solver::SeasonAnswer& answer) {
  std::vector<const solver::TroughSeason*> found;
  for (const solver::TroughSeason& trough : answer.troughs) {
    if (trough.first_dry) {
      found.push_back(&trough);
    }
  }
  std::stable_sort(found.begin(), found.end(), [](const auto* a, const auto* b) {
    return cell_of(*a).met.value_or(1.0) < cell_of(*b).met.value_or(1.0);
  });
  return found;
}

/// The verdict as lines; all but the first are set in.
std::string verdict_text(const model::Farm& farm,
                         const solver::SeasonAnswer& answer,
                         const SeasonTableOptions& options,
                         const Terminal& terminal) {
  std::string text;
  for (const std::string& sentence : season_sentences(farm, answer, options.units)) {
    text += wrapped(sentence, text_width(terminal), text.empty() ? 0 : 2);
  }
  return text;
}

TextTable troughs_table(const model::Farm& farm,
                        const solver::SeasonAnswer& answer,
                        model::UnitSystem units) {
  if (answer.troughs.empty()) {
    return {};
  }
  double greatest_m3 = 0.0;
  for (const solver::TroughSeason& trough : answer.troughs) {
    const SeasonCell all = cell_of(trough);
    greatest_m3 = std::max({greatest_m3, all.got_m3, all.need_m3});
  }
  const VolumeScale scale = volume_scale(greatest_m3, units);
  using Each = TroughSeasonRow;
  const auto hours = [](const Each& row, double count_h) {
    return row.whole.met ? decimal_text(count_h, 0) + " h" : "-";
  };
  const std::vector<Shown<Each>> shown = {
      {fmt::format("who gets what, {}", scale.unit), "name"},
      {"got",
       "got_m3",
       [&](const Each& row, model::UnitSystem) { return volume_text(row.whole.got_m3, scale); }},
      {"needs",
       "need_m3",
       [&](const Each& row, model::UnitSystem) {
         return row.whole.met ? volume_text(row.whole.need_m3, scale) : "-";
       }},
      {"met", "met"},
      {"first short", "first_dry", {}, Align::Right},
      {"hours short",
       "dry_h",
       [&](const Each& row, model::UnitSystem) { return hours(row, row.whole.dry_h); }},
      {"longest spell", "longest_dry_h", [&](const Each& row, model::UnitSystem) {
         return hours(row, row.trough.longest_dry_h);
       }}};
  return table_of(trough_season_columns(), shown, trough_season_rows(farm, answer, units), units);
}

/// "2026", or "2026 to 2027" for months of two years.
std::string years_of(const SeasonColumn& first, const SeasonColumn& last) {
  return first.first.year == last.last.year
             ? fmt::format("{}", first.first.year)
             : fmt::format("{}-{}", first.first.year, last.last.year);
}

/// One figure a trough and month, in blocks of a year.
template <class Figure>
std::vector<TextTable> months_table(const model::Farm& farm,
                                    const std::vector<const solver::TroughSeason*>& troughs,
                                    const std::vector<SeasonColumn>& columns,
                                    std::string_view what,
                                    Figure figure) {
  std::vector<TextTable> tables;
  std::size_t first = 0;
  while (first < columns.size() && !troughs.empty()) {
    std::size_t end = std::min(first + months_a_block, columns.size());
    if (columns.size() > months_a_block && !columns[first].is_year) {
      // Long seasons break where the year does.
      end = first;
      while (end < columns.size() && columns[end].first.year == columns[first].first.year) {
        ++end;
      }
    }
    std::vector<Heading> headings{
        {fmt::format("{}, {}", what, years_of(columns[first], columns[end - 1])), Align::Left}};
    for (std::size_t i = first; i < end; ++i) {
      headings.push_back({columns[i].label, Align::Right});
    }
    std::vector<Row> rows;
    for (const solver::TroughSeason* const trough : troughs) {
      Row row{farm.places.at(trough->place).name};
      for (std::size_t i = first; i < end; ++i) {
        row.push_back(figure(cell_of(*trough, columns[i])));
      }
      rows.push_back(std::move(row));
    }
    tables.push_back({std::move(headings), std::move(rows)});
    first = end;
  }
  return tables;
}

std::vector<TextTable> months_tables(const model::Farm& farm, const solver::SeasonAnswer& answer) {
  const std::vector<SeasonColumn> columns = season_columns(answer.from, answer.to, most_months);
  std::vector<const solver::TroughSeason*> with_need;
  std::vector<const solver::TroughSeason*> with_dry_hours;
  for (const solver::TroughSeason& trough : answer.troughs) {
    const SeasonCell all = cell_of(trough);
    if (all.met) {
      with_need.push_back(&trough);
    }
    if (all.dry_h >= 0.5) {  // what reads "0" everywhere needs no table
      with_dry_hours.push_back(&trough);
    }
  }
  std::vector<TextTable> tables =
      months_table(farm, with_need, columns, "% of need", [](const SeasonCell& cell) {
        return percent_text(cell.met);
      });
  const std::vector<TextTable> hours =
      months_table(farm, with_dry_hours, columns, "hours short", [](const SeasonCell& cell) {
        return cell.met ? decimal_text(cell.dry_h, 0) : "-";
      });
  tables.insert(tables.end(), hours.begin(), hours.end());
  return tables;
}

std::string first_short_table(const model::Farm& farm,
                              const solver::SeasonAnswer& answer,
                              const SeasonTableOptions& options,
                              const Terminal& terminal) {
  if (!options.until_dry) {
    return "";
  }
  if (answer.first_short.empty()) {
    return '\n' + wrapped(fmt::format("As {} falls, no trough goes short.", *options.until_dry),
                          text_width(terminal),
                          0);
  }
  const TextTable table = table_of(
      first_short_columns(),
      {{"goes short", "name"}, {fmt::format("below, {}", flow_unit(options.units)), "yield_L_s"}},
      season_rows(farm, answer.first_short),
      options.units);
  return '\n' +
         wrapped(fmt::format("As {} falls, these go short, the first first:", *options.until_dry),
                 text_width(terminal),
                 0) +
         table_text(table.columns, table.rows);
}

/// What was taken for granted, written as the flags' notes are.
std::string notes_text(const solver::SeasonAnswer& answer,
                       model::UnitSystem units,
                       const Terminal& terminal) {
  constexpr int indent = 9;
  constexpr std::string_view word = "note";
  std::string text;
  for (const std::string& note : season_note_texts(answer.notes, units)) {
    const std::string lines =
        wrapped(fmt::format("{:<{}}{}", word, indent, note), text_width(terminal), indent);
    text += styled(word, Style::Dim, terminal.colour) + lines.substr(word.size());
  }
  return text;
}

}  // namespace

std::vector<std::string> season_sentences(const model::Farm& farm,
                                          const solver::SeasonAnswer& answer,
                                          model::UnitSystem units) {
  std::vector<std::string> sentences{season_verdict(farm, answer)};
  for (const solver::SiphonBroken& broken : answer.broken) {
    const std::string until = "stays still until it is primed again";
    const std::string on = model::date_text(broken.on);
    sentences.push_back(
        broken.parted ? fmt::format("The water in {} parts at a summit on {}, and the line {}.",
                                    farm.pipes.at(broken.pipe).name,
                                    on,
                                    until)
                      : fmt::format("The siphon from {} breaks on {} and {}.",
                                    farm.places.at(broken.spring).name,
                                    on,
                                    until));
  }
  for (const solver::TroughSeason* const trough : short_troughs(answer)) {
    const solver::MonthAtTrough* const worst = worst_month(*trough);
    if (worst != nullptr && worst->reason) {
      sentences.push_back(fmt::format("{} in {} {}: {}",
                                      farm.places.at(trough->place).name,
                                      name_of(worst->month),
                                      worst->year,
                                      why_short_text(*worst->reason, units)));
    }
    const std::string pattern = day_pattern(farm, *trough, units);
    if (!pattern.empty()) {
      sentences.push_back(pattern);
    }
  }
  return sentences;
}

std::vector<TextTable> season_tables(const model::Farm& farm,
                                     const solver::SeasonAnswer& answer,
                                     model::UnitSystem units) {
  std::vector<TextTable> tables{troughs_table(farm, answer, units)};
  for (TextTable& table : months_tables(farm, answer)) {
    tables.push_back(std::move(table));
  }
  return tables;
}

std::vector<TextTable> water_tables(const model::Farm& farm,
                                    const solver::SeasonAnswer& answer,
                                    model::UnitSystem units) {
  std::vector<TextTable> tables{tanks_table(farm, answer, units)};
  for (TextTable& table : pond_tables(farm, answer, units)) {
    tables.push_back(std::move(table));
  }
  return tables;
}

namespace {

/// Dangers and cautions alone; of notes how many there are.
std::string findings_without_notes(const solver::SeasonAnswer& answer,
                                   model::UnitSystem units,
                                   const Terminal& terminal) {
  std::vector<solver::Finding> findings = answer.flags;
  const std::size_t notes =
      answer.notes.size() + std::erase_if(findings, [](const solver::Finding& finding) {
        return finding.severity == solver::Severity::Note;
      });
  return findings_text(findings, {units}, terminal) +
         (notes == 0 ? ""
                     : wrapped(fmt::format("{} note{}, which leat season shows without --spread.",
                                           notes,
                                           notes == 1 ? "" : "s"),
                               text_width(terminal),
                               0));
}

}  // namespace

std::string season_table(const model::Farm& farm,
                         const solver::SeasonAnswer& answer,
                         const SeasonTableOptions& options,
                         const Terminal& terminal) {
  const int width = text_width(terminal);
  std::string text =
      heading(farm, answer, options, terminal) + verdict_text(farm, answer, options, terminal);
  for (const TextTable& table : season_tables(farm, answer, options.units)) {
    text += table_below(table);
  }
  if (!short_troughs(answer).empty()) {
    text += '\n' + wrapped(
                       "Hours short count the water that lacks: ten hours at 80 % of the need are "
                       "two. The longest spell runs, nights too, until there is enough again.",
                       width,
                       0);
  }
  text += first_short_table(farm, answer, options, terminal);
  for (const TextTable& table : water_tables(farm, answer, options.units)) {
    text += table_below(table);
  }
  const std::string remark = pond_remark(answer);
  text += remark.empty() ? "" : wrapped(remark, width, 0);
  text += table_below(lifted_table(answer, options.units));
  return text + '\n' + wrapped(balance_sentence(answer, options.units), width, 0) +
         (options.leaves_notes_out ? findings_without_notes(answer, options.units, terminal)
                                   : findings_text(answer.flags, {options.units}, terminal) +
                                         notes_text(answer, options.units, terminal)) +
         '\n' + cautions_text(farm, terminal);
}

}  // namespace leat::render
