#include "render/commands/read/pipe_reading.h"

#include <algorithm>
#include <variant>

#include "model/catalogue/fitting_catalogue.h"
#include "solver/network/pipe_reaches.h"

namespace leat::render {

namespace {

double entrance_k(const model::Farm& farm, const model::Pipe& pipe) {
  if (pipe.entrance_k) {
    return *pipe.entrance_k;
  }
  return model::is_open_water(farm.places.at(pipe.from)) ? solver::entrance_k : 0.0;
}

double exit_k(const model::Farm& farm, const model::Pipe& pipe) {
  if (pipe.exit_k) {
    return *pipe.exit_k;
  }
  const model::Place& place = farm.places.at(pipe.to);
  return std::visit(
      Overload{[](const model::Trough& trough) {
                 return trough.seat || trough.passes ? 0.0 : solver::exit_k;
               },
               [](const model::Outlet& outlet) { return outlet.opening ? 0.0 : solver::exit_k; },
               [](const model::Tee&) { return 0.0; },
               [](const model::AnyOf<model::Spring, model::Creek, model::Pond, model::Tank> auto&) {
                 return solver::exit_k;
               }},
      place.data);
}

}  // namespace

PipeReading pipe_reading(const model::Farm& farm,
                         const model::Pipe& pipe,
                         std::optional<model::Month> month) {
  PipeReading reading;
  reading.from_level = model::from_end_level(farm, pipe, month);
  reading.to_level = model::to_end_level(farm, pipe, month);
  reading.forward_k = entrance_k(farm, pipe) + exit_k(farm, pipe);
  for (const model::Fitting& fitting : pipe.fittings) {
    reading.forward_k += fitting.count * fitting.loss_coefficient;
  }
  if (pipe.valve) {
    reading.is_shut = pipe.valve->shut;
    if (!pipe.valve->shut) {
      reading.valve_k =
          model::valve_loss_coefficient(pipe.valve->type, pipe.valve->open, pipe.size.bore);
      reading.forward_k += *reading.valve_k;
    }
  }
  reading.is_one_way = pipe.one_way || pipe.regulator.has_value() ||
                       std::any_of(pipe.fittings.begin(),
                                   pipe.fittings.end(),
                                   [](const model::Fitting& fitting) { return fitting.one_way; });
  return reading;
}

}  // namespace leat::render
