#include "solver/uncertainty/uncertain_inputs.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "solver/uncertainty/measurement_error.h"

namespace leat::solver {

namespace {

using model::Instrument;

/// A level of a place was carried there along the shortest pipe that meets it.
double distance_to_place_m(const model::Farm& farm, std::size_t place) {
  double shortest_m = std::numeric_limits<double>::infinity();
  for (const model::Pipe& pipe : farm.pipes) {
    if (pipe.from == place || pipe.to == place) {
      shortest_m = std::min(shortest_m, in_metres(pipe.length));
    }
  }
  return std::isfinite(shortest_m) ? shortest_m : 0.0;
}

double distance_m(const model::Farm& farm, const FarmInput& input) {
  if (input.kind == InputKind::PlaceLevel) {
    return distance_to_place_m(farm, input.index);
  }
  const model::Pipe& pipe = farm.pipes[input.index];
  if (input.kind == InputKind::PathLevel) {
    return in_metres(pipe.path[input.point].distance - pipe.path[input.point - 1].distance);
  }
  return in_metres(pipe.length);
}

Instrument instrument_of(const model::Farm& farm, const FarmInput& input) {
  const Instrument own = input.kind == InputKind::PlaceLevel
                             ? farm.places[input.index].surveyed_with
                             : farm.pipes[input.index].surveyed_with;
  return own == Instrument::Unsaid ? farm.surveyed_with : own;
}

double deviation_of(const model::Farm& farm, const FarmInput& input) {
  if (is_level(input.kind)) {
    return level_deviation_m(level_error_of(instrument_of(farm, input)), distance_m(farm, input));
  }
  const model::PipeSize* const size =
      input.kind == InputKind::Roughness ? &farm.pipes[input.index].size : nullptr;
  return std::log(factor_error_of(input.kind, size).factor) / half_width_95;
}

}  // namespace

std::vector<UncertainInput> uncertain_inputs(const model::Farm& farm,
                                             std::optional<model::Month> month) {
  std::vector<UncertainInput> uncertain;
  for (FarmInput& input : inputs_of(farm, month)) {
    const double deviation = deviation_of(farm, input);
    if (deviation > 0.0) {
      std::string name = name_of(farm, input);
      uncertain.push_back({std::move(input), std::move(name), deviation});
    }
  }
  return uncertain;
}

std::vector<UncertainInput> season_inputs(const model::Farm& farm,
                                          std::optional<model::Month> month) {
  std::vector<UncertainInput> uncertain = uncertain_inputs(farm, month);
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const model::HerdNeed* const stock = model::stock_at_water(farm.places[i]);
    if (stock == nullptr || stock->herd.empty()) {
      continue;
    }
    FarmInput input;
    input.kind = InputKind::Need;
    input.index = i;
    std::string name = name_of(farm, input);
    const double deviation = deviation_of(farm, input);
    uncertain.push_back({std::move(input), std::move(name), deviation});
  }
  return uncertain;
}

}  // namespace leat::solver
