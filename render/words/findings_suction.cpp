#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/words/finding_themes.h"

namespace leat::render {

std::string sentence(const FindingTold& told, const solver::PlaceNearVapour& /*detail*/) {
  return told.finding().code == solver::Code::BelowVapour
             ? fmt::format(
                   "the pressure at {} would be below that of water vapour: the "
                   "flow given is not to be trusted",
                   told.where())
             : fmt::format("{} has {} left above the vapour limit: it will gas up and stop",
                           told.where(),
                           told.length(told.value()));
}

std::string sentence(const FindingTold& told, const solver::TeeInSuction& detail) {
  const bool leaks = told.finding().code == solver::Code::AirLeak;
  const std::string above = told.length(detail.above_grade_line_m);
  const char* const line = told.is_static() ? "still water" : "the running grade line";
  return leaks ? fmt::format(
                     "{} leaks and stands {} above {}: no water drips there, air "
                     "goes in, unseen, until the line stops: make it tight",
                     told.where(),
                     above,
                     line)
               : fmt::format(
                     "{} stands {} above {}: a joint that leaks there lets air in, "
                     "unseen",
                     told.where(),
                     above,
                     line);
}

std::string sentence(const FindingTold& told, const solver::JointInSuction& detail) {
  return fmt::format(
      "the {} of {} at {} stands {} under suction: if it leaks, air goes "
      "in, unseen. Move it to where the line is under pressure, or keep "
      "it tight",
      detail.fitting.value_or("valve"),
      told.where(),
      told.length(detail.at_m),
      told.pressure(-told.value()));
}

std::string sentence(const FindingTold& told, const solver::JointsUnplaced& detail) {
  const bool is_one = detail.fittings == 1;
  return fmt::format(
      "{} is under suction {} ({} at its most), and where its "
      "{} fitting{} sit{} is not said. One that leaks there lets air in, "
      "unseen: give each its distance",
      told.where(),
      solver::spoken_reach(detail.from_m, detail.to_m, told.units()),
      told.pressure(-told.value()),
      detail.fittings,
      is_one ? "" : "s",
      is_one ? "s" : "");
}

}  // namespace leat::render
