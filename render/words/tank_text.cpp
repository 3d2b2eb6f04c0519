#include "render/words/tank_text.h"

#include <cstddef>
#include <string>

#include <fmt/format.h>

#include "model/quantity/conversion.h"
#include "model/quantity/spoken_amount.h"
#include "render/words/running_text.h"

namespace leat::render {
namespace {

std::string time_text(double time_s) {
  return time_s < 2.0 * seconds_per_day ? solver::spoken_time(time_s)
                                        : fmt::format("{:.1f} days", time_s / seconds_per_day);
}

}  // namespace

std::string falling_tanks_text(const model::Farm& farm,
                               const solver::SteadyAnswer& answer,
                               model::UnitSystem units,
                               int width) {
  std::string text;
  for (std::size_t i = 0; i < answer.places.size(); ++i) {
    const solver::PlaceAnswer& tank = answer.places[i];
    if (!tank.lasts_s) {
      continue;
    }
    std::string sentence = fmt::format("{} gives {} more than comes in",
                                       farm.places[i].name,
                                       solver::spoken_flow(-tank.delivered_m3_s, units));
    sentence += *tank.lasts_s > 0.0
                    ? fmt::format(": what stands in it, {}, lasts {}.",
                                  solver::spoken_volume(tank.stands_m3.value_or(0.0), units),
                                  time_text(*tank.lasts_s))
                    : ": it cannot last.";
    text += wrapped(sentence + " leat season tells from which day on who goes short.", width, 0);
  }
  return text.empty() ? text : '\n' + text;
}

}  // namespace leat::render
