#include <string>
#include <string_view>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/finding_themes.h"
#include "render/words/why_short.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

namespace {

/// "north trough"; "lower trough" stays what it is.
std::string name_with_kind(const std::string& name, std::string_view kind) {
  return name.ends_with(kind) ? name : fmt::format("{} {}", name, kind);
}

const char* words_of(solver::RunsPartFull::Above above) {
  using Above = solver::RunsPartFull::Above;
  switch (above) {
    case Above::Air:
      return "with air above the water";
    case Above::AirAndVapour:
      return "with air above the water in one reach, its own vapour in another";
    case Above::Vapour:
      return "with its own vapour above the water";
  }
  return "";
}

}  // namespace

std::string sentence(const FindingTold& told, const solver::GoesShort& detail) {
  const std::string got = told.value() < solver::dry_limit
                              ? "nothing"
                              : solver::spoken_flow_figure(detail.got_m3_s, told.units());
  return fmt::format("{} gets {} of the {} {}: {}",
                     name_with_kind(told.where(), detail.is_trough ? "trough" : "outlet"),
                     got,
                     told.flow(detail.need_m3_s),
                     detail.is_trough ? "it needs" : "wished for",
                     why_short_text(detail.reason, told.units()));
}

std::string sentence(const FindingTold& told, const solver::GoesShortOverItsHours& detail) {
  return fmt::format("{} gets {} of the {} it needs over its hours",
                     told.where(),
                     solver::spoken_flow_figure(detail.got_m3_s, told.units()),
                     told.flow(detail.need_m3_s));
}

std::string sentence(const FindingTold& told, const solver::SpringDrawnDown& detail) {
  return detail.taken_m3_s > 0.0
             ? fmt::format("the line takes all that {} yields ({}); its box stands at {}{}",
                           told.where(),
                           told.flow(detail.taken_m3_s),
                           told.level(told.value()),
                           detail.at_intake ? ", down at the intake, and the line draws air" : "")
             : fmt::format("{} yields nothing and its box has drained to {}",
                           told.where(),
                           told.level(told.value()));
}

std::string sentence(const FindingTold& told, const solver::Spills& detail) {
  return fmt::format("{} spills {}{}",
                     told.where(),
                     told.flow(told.value()),
                     detail.over_vent ? " over the top of its vent" : "");
}

std::string sentence(const FindingTold& told, const solver::TakenFromCreek& detail) {
  return fmt::format(
      "{} is taken from {}, more than the {} {}",
      told.flow(told.value()),
      told.where(),
      told.flow(told.limit()),
      detail.limit == solver::TakenFromCreek::Limit::Spare ? "that may be taken" : "it carries");
}

std::string sentence(const FindingTold& told, const solver::RunsPartFull& detail) {
  return fmt::format("{} runs part full over {}, {}",
                     told.where(),
                     told.length(told.value()),
                     words_of(detail.above));
}

std::string sentence(const FindingTold& told, const solver::CutOffFromWater& /*detail*/) {
  return fmt::format("{} is cut off: no open way joins it to water", told.where());
}

std::string sentence(const FindingTold& told, const solver::NoNeedGiven& /*detail*/) {
  return fmt::format("no need given for {}: its float is taken as never satisfied", told.where());
}

std::string sentence(const FindingTold& told, const solver::MonthNotMeasured& /*detail*/) {
  return fmt::format("{} was not measured in {}: a neighbouring month's figure is taken",
                     told.where(),
                     model::name_of(*told.finding().month));
}

}  // namespace leat::render
