#include <fmt/format.h>

#include "render/words/finding_themes.h"

namespace leat::render {

std::string sentence(const FindingTold& told, const solver::RunsBackwards& detail) {
  const std::string flow = told.flow(-told.value());
  if (!detail.out_of_end) {
    return fmt::format(
        "{} runs backwards, {} into {}: a one-way would stop it", told.where(), flow, detail.place);
  }
  return fmt::format(
      "{} runs backwards, {} out of {}{}: a one-way, or its end above "
      "the water, would stop it",
      told.where(),
      flow,
      detail.place,
      detail.drains_to_m ? fmt::format(" and can drain it to {}", told.level(*detail.drains_to_m))
                         : "");
}

std::string sentence(const FindingTold& told, const solver::DrainsBack& detail) {
  const std::optional<model::Month>& month = told.finding().month;
  const std::string level = told.level(detail.falls_to_m);
  const std::string falls = month ? fmt::format("falls to {} in {}", level, name_of(*month))
                                  : fmt::format("is drawn down to {}", level);
  return fmt::format(
      "when {} {}, {} drains back to it through {}, from {} down to {}: a "
      "one-way in {}, or its end above the water, would stop it",
      detail.upper,
      falls,
      detail.lower,
      told.where(),
      told.level(detail.drains_from_m),
      told.level(detail.drains_to_m),
      told.where());
}

std::string sentence(const FindingTold& told, const solver::FloatUnderWater& detail) {
  return fmt::format(
      "the float of {} lets in under water, and the line there stands {} "
      "below it: what is in the trough runs back into the line. Let it in "
      "above the water, or put a one-way in {}",
      told.where(),
      told.length(-told.value()),
      detail.pipe);
}

std::string sentence(const FindingTold& told, const solver::PondDrawnBack& detail) {
  return fmt::format(
      "water of {} is drawn back through {} and reaches {}: a one-way in "
      "{}, or its end above the water, keeps it out of the house",
      detail.pond,
      detail.pipe,
      told.where(),
      detail.pipe);
}

std::string sentence(const FindingTold& told, const solver::HouseholdInSuction& detail) {
  return fmt::format(
      "{} supplies a household, and its line stands {} under suction at {} "
      "of {}: foul water at a leak or an open hose is drawn in. Feed the "
      "house from a tank with an air gap",
      told.where(),
      told.pressure(-told.value()),
      told.length(detail.at_m),
      detail.pipe);
}

}  // namespace leat::render
