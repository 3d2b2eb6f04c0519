// Every single change that is worth a try on a farm, kind by kind.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/improve/change.h"

namespace leat::solver {

/// Whom the changes are for, and how the farm does without them. `answer` has converged.
struct ChangeAim {
  const model::Farm* farm = nullptr;
  const SteadyAnswer* answer = nullptr;
  std::size_t place = 0;  // trough, outlet or pond
  model::UnitSystem units = model::UnitSystem::Metric;
};

/// All of them: pipes, fittings, valves, places, air, hours, in the farm's order.
[[nodiscard]] std::vector<Change> possible_changes(const ChangeAim& aim);

/// The next wider bore, a second line beside (pipe_changes.cpp).
void add_pipe_changes(const ChangeAim& aim, std::vector<Change>& changes);
/// Foot valves, checks and globe valves swapped or out; valves set or opened (fitting_changes.cpp).
void add_fitting_changes(const ChangeAim& aim, std::vector<Change>& changes);
/// Seats, floats, sources, tanks, stores (place_changes.cpp).
void add_place_changes(const ChangeAim& aim, std::vector<Change>& changes);
/// Air to bleed (air_changes.cpp).
void add_air_changes(const ChangeAim& aim, std::vector<Change>& changes);
/// Troughs in turn (hour_changes.cpp).
void add_hour_changes(const ChangeAim& aim, std::vector<Change>& changes);

/// Money for so much pipe of a size, for one fitting; empty without its price. What needs nothing
/// bought costs 0 where the farm has prices at all.
[[nodiscard]] std::optional<double> pipe_cost(const model::Farm& farm,
                                              const model::PipeSize& size,
                                              Length length);
[[nodiscard]] std::optional<double> fitting_cost(const model::Farm& farm, const std::string& name);
[[nodiscard]] std::optional<double> nothing_bought(const model::Farm& farm);

/// By how much a level is moved at first: a foot, or 0.3 m.
[[nodiscard]] double small_step_m(model::UnitSystem units);

/// The catalogue's next wider size of a pipe's own kind, its rating kept; for a bore given by hand
/// the next wider of the kind the farm would buy. Empty where there is none.
[[nodiscard]] std::optional<model::PipeSize> next_size(const model::Farm& farm,
                                                       const model::PipeSize& size);

/// The mean rate a trough needs in the month; empty where no need was given or it is no trough.
[[nodiscard]] std::optional<double> trough_need_m3_s(const model::Farm& farm,
                                                     std::size_t place,
                                                     std::optional<model::Month> month);

}  // namespace leat::solver
