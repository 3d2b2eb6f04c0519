#include "solver/size/day_below.h"

#include "model/quantity/conversion.h"
#include "solver/flow/place_answers.h"

namespace leat::solver {

std::optional<double> day_amount_m3(const model::Farm& farm,
                                    const model::Place& place,
                                    std::optional<model::Month> month) {
  const std::optional<double> need = need_of(farm, place, month);
  if (!need) {
    return std::nullopt;
  }
  return *need * in_seconds(model::drinking_time_of(place));
}

std::vector<std::size_t> places_below(const model::Farm& farm, std::size_t place) {
  std::vector<std::vector<std::size_t>> leaving(farm.places.size());
  for (const model::Pipe& pipe : farm.pipes) {
    if (!pipe.valve || !pipe.valve->shut) {
      leaving[pipe.from].push_back(pipe.to);
    }
  }
  std::vector<bool> seen(farm.places.size());
  std::vector<std::size_t> found{place};
  seen[place] = true;
  for (std::size_t i = 0; i < found.size(); ++i) {
    for (const std::size_t next : leaving[found[i]]) {
      if (!seen[next]) {
        seen[next] = true;
        found.push_back(next);
      }
    }
  }
  return found;
}

double day_below_m3(const model::Farm& farm, std::size_t place, std::optional<model::Month> month) {
  double sum_m3 = 0.0;
  for (const std::size_t below : places_below(farm, place)) {
    sum_m3 += day_amount_m3(farm, farm.places[below], month).value_or(0.0);
  }
  return sum_m3;
}

}  // namespace leat::solver
