#include "render/words/season_findings.h"

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/compare.h"
#include "render/words/frost.h"
#include "render/words/why_short.h"

namespace leat::render {

namespace {

class SeasonFindingWords {
 public:
  SeasonFindingWords(const solver::Flag& flag, model::UnitSystem units)
      : flag_(flag), units_(units) {}

  std::string operator()(const solver::LineParts& parts) const {
    return fmt::format(
        "on {} the water in {} parts at its summit ({}) and the line stops; it stays "
        "stopped until primed again",
        model::date_text(parts.on),
        flag_.where,
        solver::spoken_level(parts.summit_m, units_));
  }

  std::string operator()(const solver::LineBreaks& breaks) const {
    return fmt::format(
        "on {} {} draws down to its intake, {} below the high point of {}: {} draws air "
        "and breaks; it stays broken until primed again",
        model::date_text(breaks.on),
        flag_.where,
        solver::spoken_length(value(), units_),
        breaks.high_pipe,
        breaks.pipe);
  }

  std::string operator()(const solver::LineDrawsAir& air) const {
    return fmt::format("{} draws air in through {}, which stands open, first on {}",
                       flag_.where,
                       air.open_end,
                       model::date_text(air.first_on));
  }

  std::string operator()(const solver::ShortInMonth& found) const {
    const std::string got = value() < solver::dry_limit
                                ? "nothing"
                                : fmt::format("{} of its need", share_words(value()));
    return fmt::format("{} gets {} in {} {}{}, short for {:.0f} h in all: {}",
                       flag_.where,
                       got,
                       model::name_of(found.month),
                       found.year,
                       found.short_from
                           ? fmt::format(", short from {}", model::date_text(*found.short_from))
                           : std::string(),
                       found.dry_h,
                       why_short_text(found.reason, units_));
  }

  std::string operator()(const solver::TakesMoreThanSpare& taken) const {
    return fmt::format("on {} {} is taken from {}, more than the {} that may be taken",
                       model::date_text(taken.on),
                       solver::spoken_flow(1e-3 * value(), units_),
                       flag_.where,
                       solver::spoken_flow(1e-3 * flag_.limit.value_or(0.0), units_));
  }

  std::string operator()(const solver::RunsOver& spill) const {
    const std::string volume = solver::spoken_volume(value(), units_);
    return spill.float_hangs_from
               ? fmt::format("the float of {} hangs open from {}: {} run over there",
                             flag_.where,
                             model::date_text(*spill.float_hangs_from),
                             volume)
               : fmt::format("{} runs over: {} in all", flag_.where, volume);
  }

  std::string operator()(const solver::RunsEmpty& empty) const {
    return fmt::format(
        "{} falls to {} on {}, {}",
        flag_.where,
        solver::spoken_level(value(), units_),
        model::date_text(empty.on),
        empty.at_mouth ? "down at the mouth of its lowest pipe" : "down at its bottom");
  }

  std::string operator()(const solver::PipeFreezes& freezes) const {
    return frost_pipe_text(flag_.where, freezes.frost, units_);
  }

  std::string operator()(const solver::NeedUntold&) const {
    return fmt::format("no need given for {}: its float is taken as never satisfied", flag_.where);
  }

 private:
  [[nodiscard]] double value() const { return flag_.value.value_or(0.0); }

  const solver::Flag& flag_;
  model::UnitSystem units_;
};

}  // namespace

std::string season_finding_text(const solver::Flag& flag, model::UnitSystem units) {
  return std::visit(SeasonFindingWords(flag, units), flag.detail.value());
}

void put_season_texts(std::vector<solver::Flag>& flags, model::UnitSystem units) {
  for (solver::Flag& flag : flags) {
    if (flag.detail) {
      flag.text = season_finding_text(flag, units);
    }
  }
}

}  // namespace leat::render
