#include <fmt/format.h>

#include "render/commands/prime/prime_report.h"
#include "render/commands/report/chapters.h"
#include "render/words/prime_names.h"
#include "render/words/prime_remarks.h"
#include "render/words/prime_steps.h"
#include "render/words/prime_verdict.h"
#include "render/words/season_words.h"
#include "solver/prime/prime.h"

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
  chapter.blocks.emplace_back(Paragraph{prime_verdict(plan, subject.units)});
  chapter.blocks.emplace_back(
      Listing{Listing::Kind::Numbered, step_sentences(plan, subject.units)});
  chapter.blocks.emplace_back(
      Listing{Listing::Kind::Unnumbered, remark_sentences(plan, subject.units)});
  const std::vector<TextTable> tables = prime_tables(subject.farm, plan, subject.units);
  chapter.blocks.emplace_back(Figures{tables.front(), "pipe"});
  chapter.blocks.emplace_back(Figures{tables.back(), "pipe"});
  if (!plan.air.empty()) {
    chapter.blocks.emplace_back(Paragraph{std::string(air_key)});
  }
  chapter.blocks.emplace_back(Findings{
      told_findings(plan.answer.flags, {subject.units, Detail::Short, plan.answer.load_case})});
}

}  // namespace

Chapter priming_chapter(const Subject& subject) {
  const model::Farm& farm = subject.farm;
  Chapter chapter{"priming", "Priming", {}};
  std::vector<bool> seen(farm.pipes.size(), false);    // in some line looked at
  std::vector<bool> primed(farm.pipes.size(), false);  // in a line whose priming is written down
  std::vector<std::string> filling;
  std::vector<std::string> hanging;
  std::vector<std::string> unplanned;
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    if (seen[i]) {
      continue;
    }
    solver::PrimeOptions options;
    options.pipe = farm.pipes[i].name;
    options.month = subject.answer.month;
    const solver::PrimePlan plan = solver::priming_plan(farm, options);
    if (!plan.is_made()) {
      unplanned.push_back(
          fmt::format("{}: {}.", farm.pipes[i].name, prime_problems(farm, plan).front().text));
      continue;
    }
    const std::vector<std::size_t>& line = plan.course.line.pipes;
    std::vector<std::string> names;
    bool hangs_on_another = false;
    for (const std::size_t pipe : line) {
      seen[pipe] = true;
      names.push_back(farm.pipes[pipe].name);
      hangs_on_another = hangs_on_another || primed[pipe];
    }
    if (plan.need == solver::PrimeNeed::FillsItself) {
      filling.push_back(joined_names(names));
    } else if (hangs_on_another) {
      hanging.push_back(joined_names(names));
    } else {
      add_plan(subject, plan, chapter);
      for (const std::size_t pipe : line) {
        primed[pipe] = true;
      }
    }
  }
  if (!hanging.empty()) {
    chapter.blocks.emplace_back(Subheading{"These lines share pipes with a line above"});
    chapter.blocks.emplace_back(
        Paragraph{"They are shut off while that line is primed. leat prime FILE PIPE plans each by "
                  "itself."});
    chapter.blocks.emplace_back(Listing{Listing::Kind::Unnumbered, hanging});
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
