// A change a keeper can make to a farm, as something that can be done to a copy of it and solved.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/improve/action.h"

namespace leat::solver {

enum class ChangeKind {
  WiderPipe,
  SecondLine,
  Fitting,      // swapped or taken out
  Seat,         // of a float valve, another bore
  ValveSet,     // part shut, so that others get their share
  ValveOpened,  // wide open
  Tank,         // a settling tank at a tee
  Store,        // a store at a trough, that fills around the clock
  FloatLower,   // a float, outlet or free end
  SourceHigher,
  Bleeding,  // air at a high point; the answer itself counts none
  Hours      // troughs in turn
};

/// A share of the drinking hours with what is altered in it. Places and pipes of the farm keep
/// their indexes; what is added stands behind them.
struct Phase {
  double share = 1.0;
  std::function<void(model::Farm&)> alter;
};

/// One way to carry out a change: how far a valve is shut, how wide a seat is.
struct Setting {
  Action action;
  std::optional<double> cost;  // money; empty where a price is missing
  std::vector<Phase> phases;   // their shares add up to 1
  // A trough that fills longer than it drinks: hours filled over hours drunk.
  std::optional<std::size_t> stored_place;
  double stored_hours = 1.0;
};

/// One change. Where it has several settings, the best of them is the change.
struct Change {
  ChangeKind kind = ChangeKind::WiderPipe;
  std::string where;                 // name of the pipe or place that is changed
  std::optional<std::size_t> pipe;   // ... its index, where it is a pipe
  std::optional<std::size_t> place;  // ... or a place
  std::vector<Setting> settings;
  // The farm with a pocket of air in place, for Bleeding: what it might be giving now.
  std::function<void(model::Farm&)> with_air;
};

/// A copy of the farm with one phase of a setting carried out.
[[nodiscard]] inline model::Farm changed_farm(const model::Farm& farm, const Phase& phase) {
  model::Farm changed = farm;
  if (phase.alter) {
    phase.alter(changed);
  }
  return changed;
}

/// A setting of one phase that lasts all hours.
[[nodiscard]] inline Setting setting_of(Action action,
                                        std::optional<double> cost,
                                        std::function<void(model::Farm&)> alter) {
  return {std::move(action), cost, {{1.0, std::move(alter)}}, std::nullopt, 1.0};
}

}  // namespace leat::solver
