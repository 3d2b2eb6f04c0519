#include <fmt/format.h>

#include "model/keys/measured.h"
#include "render/commands/fit/fit_report.h"
#include "render/commands/report/chapters.h"
#include "render/words/fit_causes.h"
#include "render/words/fit_next.h"
#include "solver/fit/fit.h"

namespace leat::render::report {

namespace {

std::string joined(const std::vector<std::string>& texts) {
  std::string all;
  for (const std::string& text : texts) {
    all += (all.empty() ? "" : ", ") + text;
  }
  return all;
}

TextTable as_written(const model::Farm& farm) {
  TextTable table{{{"as written in the file", Align::Left},
                   {"read", Align::Left},
                   {"on", Align::Left},
                   {"with", Align::Left}},
                  {}};
  for (const model::Measurement& each : farm.measured) {
    table.rows.push_back(
        {farm.places[each.place].name,
         joined(each.given),
         each.on ? model::date_text(*each.on) : "-",
         each.with == model::Instrument::Unsaid ? "-" : std::string(model::word_of(each.with))});
  }
  return table;
}

}  // namespace

Chapter measurements_chapter(const Subject& subject) {
  Chapter chapter{"measurements", "Measured and computed", {}};
  if (subject.farm.measured.empty()) {
    chapter.blocks.emplace_back(Paragraph{
        "No measurement stands in the file, so nothing here has been held against the water "
        "itself. Fill a bucket at the worst trough, its float held down, and write it under "
        "'measured'."});
    return chapter;
  }
  chapter.blocks.emplace_back(Figures{as_written(subject.farm), "at"});
  solver::FitOptions options;
  options.month = subject.answer.month;
  options.units = subject.units;
  const solver::FitAnswer fitted = solver::fit(subject.farm, options);
  if (!fitted.result.solved) {
    const auto& problems = fitted.answer.problems;
    chapter.blocks.emplace_back(
        Paragraph{fmt::format("Nothing could be computed beside them: {}.",
                              problems.empty() ? "no balance was found" : problems.front().text)});
    return chapter;
  }
  chapter.blocks.emplace_back(
      Paragraph{"Computed with every float held wide open, as a bucket under it finds it; +/- is "
                "one standard error of the reading."});
  chapter.blocks.emplace_back(
      Figures{readings_table(subject.farm, fitted, subject.units), "place or pipe"});
  chapter.blocks.emplace_back(Paragraph{fit_verdict(fitted)});
  std::vector<std::string> sentences;
  for (std::size_t i = 0; i < fitted.result.entries.size(); ++i) {
    sentences.push_back(sentence_of_entry(subject.farm, fitted, i, subject.units).text());
  }
  chapter.blocks.emplace_back(Listing{Listing::Kind::Numbered, sentences});
  if (!sentences.empty()) {
    chapter.blocks.emplace_back(Paragraph{std::string(fit_remark)});
  }
  chapter.blocks.emplace_back(
      Paragraph{fmt::format("Next: {}.", fit_next(subject.farm, fitted, subject.units))});
  return chapter;
}

}  // namespace leat::render::report
