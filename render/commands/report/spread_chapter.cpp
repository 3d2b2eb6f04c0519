#include <fmt/format.h>

#include "render/commands/report/chapters.h"
#include "render/commands/solve/spread_report.h"
#include "render/words/number_text.h"

namespace leat::render::report {

Chapter spread_chapter(const Subject& subject, const solver::Spread& spread) {
  Chapter chapter{"spread", "How sure this is", {}};
  TextTable places = spread_places(subject.farm, spread, subject.units);
  places.columns.front().heading += fmt::format(", flows in {}", flow_unit(subject.units));
  chapter.blocks.emplace_back(Figures{places, "place"});
  for (const std::string& sentence : spread_sentences(subject.farm, spread, subject.units)) {
    chapter.blocks.emplace_back(Paragraph{sentence});
  }
  for (const std::string& remark : spread_remarks(subject.farm, spread)) {
    chapter.blocks.emplace_back(Paragraph{remark});
  }
  return chapter;
}

}  // namespace leat::render::report
