#include <fmt/format.h>

#include "render/prime_report.h"
#include "render/report/chapters.h"
#include "render/season_words.h"
#include "solver/prime.h"

namespace leat::render::report {

namespace {

/// A sentence's first letter made a capital one.
std::string as_title(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  }
  return text;
}

void add_plan(const Subject& subject, const solver::PrimePlan& plan, Chapter& chapter) {
  chapter.blocks.emplace_back(Subheading{as_title(line_title(subject.farm, plan))});
  chapter.blocks.emplace_back(Paragraph{plan.verdict});
  chapter.blocks.emplace_back(
      Listing{Listing::Kind::Numbered, step_sentences(plan, subject.units)});
  chapter.blocks.emplace_back(Listing{Listing::Kind::Unnumbered, plan.remarks});
  const std::vector<TextTable> tables = prime_tables(subject.farm, plan, subject.units);
  chapter.blocks.emplace_back(Figures{tables.front(), "pipe"});
  chapter.blocks.emplace_back(Figures{tables.back(), "pipe"});
  if (!plan.air.empty()) {
    chapter.blocks.emplace_back(Paragraph{std::string(air_key)});
  }
  chapter.blocks.emplace_back(Findings{findings_of(plan.answer, Detail::Short)});
}

}  // namespace

Chapter priming_chapter(const Subject& subject) {
  Chapter chapter{"priming", "Priming", {}};
  std::vector<bool> seen(subject.farm.pipes.size(), false);
  std::vector<std::string> filling;
  std::vector<std::string> unplanned;
  for (std::size_t i = 0; i < subject.farm.pipes.size(); ++i) {
    if (seen[i]) {
      continue;
    }
    solver::PrimeOptions options;
    options.pipe = subject.farm.pipes[i].name;
    options.month = subject.answer.month;
    options.units = subject.units;
    const solver::PrimePlan plan = solver::priming_plan(subject.farm, options);
    if (!plan.problems.empty()) {
      unplanned.push_back(
          fmt::format("{}: {}.", subject.farm.pipes[i].name, plan.problems.front().text));
      continue;
    }
    for (const std::size_t pipe : plan.course.line.pipes) {
      seen[pipe] = true;
    }
    if (plan.need == solver::PrimeNeed::FillsItself) {
      std::vector<std::string> names;
      for (const std::size_t pipe : plan.course.line.pipes) {
        names.push_back(subject.farm.pipes[pipe].name);
      }
      filling.push_back(joined_names(names));
    } else {
      add_plan(subject, plan, chapter);
    }
  }
  if (!filling.empty()) {
    chapter.blocks.emplace_back(Subheading{"These lines fill by themselves"});
    chapter.blocks.emplace_back(Paragraph{
        "Open every high point, let the water in slowly (0.3 m/s, 1 ft/s) and close each high "
        "point when water comes without air."});
    chapter.blocks.emplace_back(Listing{Listing::Kind::Unnumbered, filling});
  }
  chapter.blocks.emplace_back(Listing{Listing::Kind::Unnumbered, unplanned});
  return chapter;
}

}  // namespace leat::render::report
