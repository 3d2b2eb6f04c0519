#include <algorithm>
#include <array>
#include <utility>

#include "model/catalogue/fitting_catalogue.h"
#include "solver/improve/possible_changes.h"

namespace leat::solver {

namespace {

/// Openings tried, widest first, as a keeper can set them: sixteenths of the stem's travel, degrees
/// of the ball's quarter turn. They lie within the opening tables.
constexpr std::array gate_openings = {
    7.0 / 8, 6.0 / 8, 5.0 / 8, 4.0 / 8, 7.0 / 16, 3.0 / 8, 5.0 / 16, 2.0 / 8, 3.0 / 16, 1.0 / 8};
constexpr std::array ball_openings = {
    8.0 / 9, 7.0 / 9, 6.0 / 9, 5.5 / 9, 5.0 / 9, 4.5 / 9, 4.0 / 9, 3.5 / 9, 3.0 / 9};

using Consequence = ChangeFitting::Consequence;

/// A swap or removal: of what, by what (empty: nothing), and what to know of it.
struct Swap {
  const char* from;
  const char* to;
  Consequence consequence;
};
constexpr std::array swaps = {Swap{"poppet foot valve", "hinged foot valve", Consequence::None},
                              Swap{"poppet foot valve", "", Consequence::NeedsOtherPriming},
                              Swap{"hinged foot valve", "", Consequence::NeedsOtherPriming},
                              Swap{"lift check", "swing check", Consequence::None},
                              Swap{"spring check", "swing check", Consequence::None},
                              Swap{"lift check", "", Consequence::MayRunBack},
                              Swap{"spring check", "", Consequence::MayRunBack},
                              Swap{"swing check", "", Consequence::MayRunBack},
                              Swap{"globe valve", "gate valve", Consequence::None}};

void swap_fitting(model::Pipe& pipe, std::size_t index, const model::CatalogueFitting* to) {
  if (to == nullptr) {
    pipe.fittings.erase(pipe.fittings.begin() + static_cast<std::ptrdiff_t>(index));
    return;
  }
  model::Fitting& fitting = pipe.fittings[index];
  fitting.name = to->name;
  fitting.one_way = to->one_way;
  fitting.loss_coefficient = model::loss_coefficient(*to, pipe.size.bore);
  fitting.lifting_velocity = model::lifting_velocity(*to, pipe.size.bore);
  fitting.opening_head = to->opening_head;
}

/// Where a house draws from the farm's water, checks stand between it and what stock foul: they
/// are left alone.
bool serves_a_house(const model::Farm& farm) {
  return std::any_of(farm.places.begin(), farm.places.end(), [](const model::Place& place) {
    return model::serves_household(place);
  });
}

void add_swaps(const ChangeAim& aim, std::size_t pipe_index, std::vector<Change>& changes) {
  const model::Pipe& pipe = aim.farm->pipes[pipe_index];
  for (std::size_t i = 0; i < pipe.fittings.size(); ++i) {
    for (const Swap& swap : swaps) {
      const bool is_check = std::string(swap.from).find("check") != std::string::npos;
      if (pipe.fittings[i].name != swap.from || (is_check && serves_a_house(*aim.farm))) {
        continue;
      }
      const model::CatalogueFitting* const to =
          *swap.to == '\0' ? nullptr : model::find_fitting(swap.to);
      Change change;
      change.kind = ChangeKind::Fitting;
      change.where = pipe.name;
      change.pipe = pipe_index;
      const std::optional<double> each =
          to == nullptr ? nothing_bought(*aim.farm) : fitting_cost(*aim.farm, swap.to);
      change.settings.push_back(setting_of(
          ChangeFitting{pipe.name, swap.from, swap.to, swap.consequence},
          each ? std::optional(*each * pipe.fittings[i].count) : std::nullopt,
          [pipe_index, i, to](model::Farm& farm) { swap_fitting(farm.pipes[pipe_index], i, to); }));
      changes.push_back(std::move(change));
    }
  }
}

void add_opened(const ChangeAim& aim, std::size_t index, std::vector<Change>& changes) {
  const model::Pipe& pipe = aim.farm->pipes[index];
  Change change;
  change.kind = ChangeKind::ValveOpened;
  change.where = pipe.name;
  change.pipe = index;
  change.settings.push_back(
      setting_of(OpenValve{pipe.name}, nothing_bought(*aim.farm), [index](model::Farm& farm) {
        farm.pipes[index].valve->open = 1.0;
        farm.pipes[index].valve->shut = false;
      }));
  changes.push_back(std::move(change));
}

/// A new valve goes to the end of its pipe: there it lowers no pressure along it.
model::Valve new_valve() {
  model::Valve valve;
  valve.type = model::ValveType::Gate;
  valve.place = model::Placement{model::Placement::Where::End, {}};
  return valve;
}

void add_settings(const ChangeAim& aim, std::size_t index, std::vector<Change>& changes) {
  const model::Pipe& pipe = aim.farm->pipes[index];
  const bool is_new = !pipe.valve;
  const bool is_ball = !is_new && pipe.valve->type == model::ValveType::Ball;
  Change change;
  change.kind = ChangeKind::ValveSet;
  change.where = pipe.name;
  change.pipe = index;
  const double now = is_new || pipe.valve->shut ? 1.0 : pipe.valve->open;
  const model::ValveType type = is_ball ? model::ValveType::Ball : model::ValveType::Gate;
  const auto add = [&](double open) {
    if (open >= now) {
      return;
    }
    change.settings.push_back(
        setting_of(SetValve{pipe.name, type, open, is_new},
                   is_new ? fitting_cost(*aim.farm, "gate valve") : nothing_bought(*aim.farm),
                   [index, open](model::Farm& farm) {
                     model::Pipe& set = farm.pipes[index];
                     set.valve = set.valve.value_or(new_valve());
                     set.valve->open = open;
                     set.valve->shut = false;
                   }));
  };
  if (is_ball) {
    std::for_each(ball_openings.begin(), ball_openings.end(), add);
  } else {
    std::for_each(gate_openings.begin(), gate_openings.end(), add);
  }
  if (!change.settings.empty()) {
    changes.push_back(std::move(change));
  }
}

}  // namespace

void add_fitting_changes(const ChangeAim& aim, std::vector<Change>& changes) {
  for (std::size_t i = 0; i < aim.farm->pipes.size(); ++i) {
    const model::Pipe& pipe = aim.farm->pipes[i];
    add_swaps(aim, i, changes);
    if (pipe.valve && (pipe.valve->shut || pipe.valve->open < 1.0)) {
      add_opened(aim, i, changes);
    }
    if (!pipe.valve || !pipe.valve->shut) {
      add_settings(aim, i, changes);
    }
  }
}

}  // namespace leat::solver
