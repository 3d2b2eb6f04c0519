#include "render/words/steady_notes.h"

#include <fmt/format.h>

#include "model/quantity/conversion.h"
#include "model/quantity/spoken_amount.h"

namespace leat::render {

namespace {

std::string text_of(const solver::CaseNotJudged& note, model::UnitSystem /*units*/) {
  return fmt::format(
      "no balance was found for case {}: its dangers are not "
      "judged",
      word_of(note.load_case));
}

std::string text_of(const solver::SolvedAgain& note, model::UnitSystem /*units*/) {
  return fmt::format(
      "solved again with {} line{} broken and {} tee{} open to "
      "the air",
      note.broken_lines,
      note.broken_lines == 1 ? "" : "s",
      note.open_tees,
      note.open_tees == 1 ? "" : "s");
}

std::string text_of(const solver::FloatHangsOpen& note, model::UnitSystem units) {
  return fmt::format(
      "the float of {} hangs open: {} runs there, {} of it to "
      "waste ({} a day)",
      note.trough,
      solver::spoken_flow(note.runs_m3_s, units),
      solver::spoken_flow(note.wasted_m3_s, units),
      solver::spoken_volume(note.wasted_m3_s * seconds_per_day, units));
}

std::string text_of(const solver::StoreCanFall& note, model::UnitSystem units) {
  return fmt::format(
      "left alone, {} can fall to {}", note.place, solver::spoken_level(note.to_m, units));
}

}  // namespace

std::vector<std::string> steady_note_texts(const std::vector<solver::SteadyNote>& notes,
                                           model::UnitSystem units) {
  std::vector<std::string> texts;
  for (const solver::SteadyNote& note : notes) {
    texts.push_back(std::visit([units](const auto& one) { return text_of(one, units); }, note));
  }
  return texts;
}

}  // namespace leat::render
