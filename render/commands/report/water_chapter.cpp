#include <limits>

#include "render/commands/report/chapters.h"
#include "render/commands/solve/table_report.h"
#include "render/words/pumps_and_rams_text.h"

namespace leat::render::report {

Chapter water_chapter(const Subject& subject) {
  Chapter chapter{"water", "Who gets what", {}};
  chapter.blocks.emplace_back(Paragraph{"Computed for " + case_text(subject.farm, subject.answer) +
                                        "; " + units_text(subject.farm, subject.units) + "."});
  const std::vector<TextTable> tables = answer_tables(subject.farm, subject.answer, subject.units);
  chapter.blocks.emplace_back(Figures{tables[0], "place"});
  chapter.blocks.emplace_back(Figures{tables[1], "place"});
  TextTable pipes = tables[2];
  pipes.columns.front().heading = "what every pipe does";
  chapter.blocks.emplace_back(Figures{pipes, "pipe"});
  constexpr int one_line = std::numeric_limits<int>::max();
  chapter.blocks.emplace_back(
      Paragraph{lifters_text(subject.farm, subject.answer, subject.units, one_line)});
  return chapter;
}

}  // namespace leat::render::report
