#include "render/commands/report/chapters.h"
#include "render/words/steady_notes.h"

namespace leat::render::report {

Chapter findings_chapter(const Subject& subject) {
  Chapter chapter{"findings", "What is amiss", {}};
  const bool is_season_amiss = subject.season != nullptr && is_amiss(subject.season->flags);
  if (!is_amiss(subject.answer.flags) && !is_season_amiss) {
    chapter.blocks.emplace_back(Paragraph{std::string(nothing_amiss)});
  } else if (!is_amiss(subject.answer.flags)) {
    chapter.blocks.emplace_back(Paragraph{
        "In the month computed for, with tanks as full as the file says, nothing amiss that leat "
        "checks. Over the season there is: see that chapter."});
  }
  chapter.blocks.emplace_back(Findings{told_findings(
      subject.answer.flags, {subject.units, Detail::Short, subject.answer.load_case})});
  std::vector<std::string> assumed = steady_note_texts(subject.answer.notes, subject.units);
  assumed.insert(assumed.end(), subject.farm.notes.begin(), subject.farm.notes.end());
  if (!assumed.empty()) {
    chapter.blocks.emplace_back(Subheading{"Taken for granted"});
    chapter.blocks.emplace_back(Listing{Listing::Kind::Unnumbered, assumed});
  }
  return chapter;
}

}  // namespace leat::render::report
