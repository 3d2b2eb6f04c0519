#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/compare.h"
#include "render/words/finding_themes.h"
#include "render/words/frost.h"
#include "render/words/why_short.h"

namespace leat::render {

std::string sentence(const FindingTold& told, const solver::LineParts& parts) {
  return fmt::format(
      "on {} the water in {} parts at its summit ({}) and the line stops; it stays "
      "stopped until primed again",
      model::date_text(parts.on),
      told.where(),
      told.level(parts.summit_m));
}

std::string sentence(const FindingTold& told, const solver::LineBreaks& breaks) {
  return fmt::format(
      "on {} {} draws down to its intake, {} below the high point of {}: {} draws air "
      "and breaks; it stays broken until primed again",
      model::date_text(breaks.on),
      told.where(),
      told.length(told.value()),
      breaks.high_pipe,
      breaks.pipe);
}

std::string sentence(const FindingTold& told, const solver::LineDrawsAir& air) {
  return fmt::format("{} draws air in through {}, which stands open, first on {}",
                     told.where(),
                     air.open_end,
                     model::date_text(air.first_on));
}

std::string sentence(const FindingTold& told, const solver::ShortInMonth& found) {
  const std::string got = told.value() < solver::dry_limit
                              ? "nothing"
                              : fmt::format("{} of its need", share_words(told.value()));
  return fmt::format("{} gets {} in {} {}{}, short for {:.0f} h in all: {}",
                     told.where(),
                     got,
                     model::name_of(found.month),
                     found.year,
                     found.short_from
                         ? fmt::format(", short from {}", model::date_text(*found.short_from))
                         : std::string(),
                     found.dry_h,
                     why_short_text(found.reason, told.units()));
}

std::string sentence(const FindingTold& told, const solver::TakesMoreThanSpare& taken) {
  return fmt::format("on {} {} is taken from {}, more than the {} that may be taken",
                     model::date_text(taken.on),
                     told.flow(told.value()),
                     told.where(),
                     told.flow(told.limit()));
}

std::string sentence(const FindingTold& told, const solver::RunsOver& spill) {
  const std::string volume = solver::spoken_volume(told.value(), told.units());
  return spill.float_hangs_from
             ? fmt::format("the float of {} hangs open from {}: {} run over there",
                           told.where(),
                           model::date_text(*spill.float_hangs_from),
                           volume)
             : fmt::format("{} runs over: {} in all", told.where(), volume);
}

std::string sentence(const FindingTold& told, const solver::RunsEmpty& empty) {
  return fmt::format(
      "{} falls to {} on {}, {}",
      told.where(),
      told.level(told.value()),
      model::date_text(empty.on),
      empty.at_mouth ? "down at the mouth of its lowest pipe" : "down at its bottom");
}

std::string sentence(const FindingTold& told, const solver::PipeFreezes& freezes) {
  return frost_pipe_text(told.where(), freezes.frost, told.units());
}

}  // namespace leat::render
