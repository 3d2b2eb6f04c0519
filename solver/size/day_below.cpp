#include "solver/size/day_below.h"

#include <vector>

#include "solver/place_answers.h"

namespace leat::solver {

namespace {

constexpr double seconds_per_day = 86400.0;

}  // namespace

std::optional<double> day_amount_m3(const model::Farm& farm,
                                    const model::Place& place,
                                    std::optional<model::Month> month) {
  const std::optional<double> need = need_of(farm, place, month);
  if (!need) {
    return std::nullopt;
  }
  const auto* const trough = std::get_if<model::Trough>(&place.data);
  return *need * (trough != nullptr ? in_seconds(trough->within) : seconds_per_day);
}

double day_below_m3(const model::Farm& farm, std::size_t place, std::optional<model::Month> month) {
  std::vector<std::vector<std::size_t>> leaving(farm.places.size());
  for (const model::Pipe& pipe : farm.pipes) {
    if (!pipe.valve || !pipe.valve->shut) {
      leaving[pipe.from].push_back(pipe.to);
    }
  }
  std::vector<bool> seen(farm.places.size());
  std::vector<std::size_t> waiting{place};
  seen[place] = true;
  double sum_m3 = 0.0;
  while (!waiting.empty()) {
    const std::size_t here = waiting.back();
    waiting.pop_back();
    sum_m3 += day_amount_m3(farm, farm.places[here], month).value_or(0.0);
    for (const std::size_t next : leaving[here]) {
      if (!seen[next]) {
        seen[next] = true;
        waiting.push_back(next);
      }
    }
  }
  return sum_m3;
}

}  // namespace leat::solver
