#include "solver/survey_error.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace leat::solver {

namespace {

/// Half the width that holds 95 of 100 normal deviates, in standard deviations.
constexpr double half_width_95 = 1.959963984540054;

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

LevelError level_error_of(Instrument instrument) {
  switch (instrument) {
    case Instrument::WaterLevel:
      return {metres_per_inch * 0.1,
              40.0,
              "reference K3: 1 mm over a 40 m hose, a tenth of an inch over hundreds of feet "
              "(builders' reports); the worse of the two for each set-up"};
    case Instrument::BuildersLevel:
      return {metres_per_foot * 0.01,
              metres_per_foot * 125.0,
              "reference K3: 0.01 ft in a sight of 100 to 150 ft (from memory)"};
    case Instrument::Phone:
      return {12.5, 0.0, "reference K3: 10 to 15 m, 95 in 100: unfit for a siphon"};
    case Instrument::HandLevel:
    case Instrument::Unsaid:
    case Instrument::Bucket:
    case Instrument::Gauge:
      break;
  }
  return {metres_per_foot * 0.1,
          metres_per_foot * 50.0,
          "reference K3: 0.1 ft in a sight of 50 ft (from memory)"};
}

double level_deviation_m(const LevelError& error, double distance) {
  const double sights = error.sight_m > 0.0 ? std::max(1.0, distance / error.sight_m) : 1.0;
  return error.half_width_m * std::sqrt(sights) / half_width_95;
}

FactorError factor_error_of(InputKind kind, const model::PipeSize* size) {
  switch (kind) {
    case InputKind::Length:
      return {1.02, "trade-needs 13: taped or paced, or map distance for slope distance, 2 %"};
    case InputKind::Roughness:
      if (size != nullptr && size->friction_factor) {
        return {1.03, "reference A1: a friction factor read off a chart, 3 %"};
      }
      if (size != nullptr && size->hazen_williams_c) {
        return {150.0 / 140.0, "reference A3: C 150 new, 140 aged"};
      }
      return {0.007 / 0.0015, "reference A3: 0.0015 mm new, to 0.007 mm with joints (from memory)"};
    case InputKind::Fittings:
    case InputKind::Seat:
      return {1.25, "trade-needs 15: K factors 25 %"};
    case InputKind::Yield:
      return {1.032, "reference K1: bucket and watch, 3.2 %"};
    case InputKind::Need:
      return {1.30, "trade-needs 15: what stock drink, 30 %"};
    case InputKind::AirPressure:
      return {1.03, "reference D2: weather alone, 3 %"};
    case InputKind::Bore:
    case InputKind::ValveOpening:
    case InputKind::PlaceLevel:
    case InputKind::EndLevel:
    case InputKind::PathLevel:
      break;
  }
  return {};
}

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

}  // namespace leat::solver
