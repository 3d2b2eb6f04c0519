#include "render/words/tank_text.h"

#include <string>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/conversion.h"
#include "model/quantity/spoken_amount.h"
#include "render/words/running_text.h"
#include "solver/day/farm_of_day.h"
#include "solver/network/farm_stores.h"

namespace leat::render {
namespace {

/// A tank that gives less more than this than it is fed stands where it is [m3/s]: 0.06 L/min.
constexpr double worth_a_word_m3_s = 1e-6;

/// What stands above the lowest mouth of the pipes that leave a tank [m3].
double stands_m3(const model::Farm& farm, const solver::StoreLaw& tank) {
  const double mouth_m = solver::lowest_mouth_m(farm, tank).value_or(tank.bottom_m);
  return tank.area_m2 * (tank.start_m - mouth_m);
}

std::string time_text(double time_s) {
  return time_s < 2.0 * seconds_per_day ? solver::spoken_time(time_s)
                                        : fmt::format("{:.1f} days", time_s / seconds_per_day);
}

}  // namespace

std::string falling_tanks_text(const model::Farm& farm,
                               const solver::SteadyAnswer& answer,
                               model::UnitSystem units,
                               int width) {
  if (answer.load_case == solver::LoadCase::Static) {
    return "";
  }
  std::vector<solver::StoreNote> unheard;
  const solver::FarmStores stores(farm, {}, unheard);
  std::string text;
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const model::Place& place = farm.places[i];
    const double falls_m3_s = -answer.places.at(i).delivered_m3_s;
    if (!model::is_tank(place) || model::settles(place) || falls_m3_s < worth_a_word_m3_s) {
      continue;
    }
    std::string sentence = fmt::format("{} gives {} more than comes in",
                                       farm.places[i].name,
                                       solver::spoken_flow(falls_m3_s, units));
    const solver::StoreLaw* const store = stores.find(i);  // none where its area is not known
    const double stands = store == nullptr ? 0.0 : stands_m3(farm, *store);
    sentence += stands > 0.0 ? fmt::format(": what stands in it, {}, lasts {}.",
                                           solver::spoken_volume(stands, units),
                                           time_text(stands / falls_m3_s))
                             : ": it cannot last.";
    text += wrapped(sentence + " leat season tells from which day on who goes short.", width, 0);
  }
  return text.empty() ? text : '\n' + text;
}

}  // namespace leat::render
