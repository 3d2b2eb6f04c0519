#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <string>
#include <utility>

#include "solver/improve/possible_changes.h"
#include "solver/uncertainty/farm_input.h"

namespace leat::solver {

namespace {

/// Bores of float valve seats that are sold [mm]: common practice, no source.
constexpr std::array seats_mm = {
    20.0, 16.0, 12.0, 10.0, 8.0, 7.0, 6.0, 5.0, 4.0, 3.0, 2.5, 2.0, 1.5};
/// A shallow tank to settle in at a tee: common practice, no source.
constexpr double tank_depth_m = 1.0;
constexpr double day_h = 24.0;

double large_step_m(model::UnitSystem units) {
  return units == model::UnitSystem::Us ? 3.0 * metres_per_foot : 1.0;
}

class PlaceChanges {
 public:
  PlaceChanges(const ChangeAim& aim, std::vector<Change>& changes)
      : aim_(aim), farm_(*aim.farm), changes_(changes) {}

  void add() {
    for (const FarmInput& input : inputs_of(farm_, aim_.answer->month)) {
      add_levels(input);
    }
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      if (model::is_trough(farm_.places[i])) {
        add_seats(i);
        add_store(i);
      }
      if (model::is_tee(farm_.places[i])) {
        add_tank(i);
      }
    }
  }

 private:
  Change change_at(ChangeKind kind, std::size_t place) const {
    Change change;
    change.kind = kind;
    change.where = farm_.places[place].name;
    change.place = place;
    return change;
  }

  void add_levels(const FarmInput& input) {
    if (input.kind == InputKind::EndLevel && farm_.pipes[input.index].to == aim_.place) {
      const std::string& pipe = farm_.pipes[input.index].name;
      add_level(input, -small_step_m(aim_.units), MoveLevel::What::FreeEnd, pipe);
      return;
    }
    if (input.kind != InputKind::PlaceLevel) {
      return;
    }
    const model::Place& place = farm_.places[input.index];
    const double small = small_step_m(aim_.units);
    const double large = large_step_m(aim_.units);
    if (input.index == aim_.place && std::holds_alternative<model::Trough>(place.data)) {
      add_level(input, -small, MoveLevel::What::Float, place.name);
      add_level(input, -large, MoveLevel::What::Trough, place.name);
    } else if (input.index == aim_.place && std::holds_alternative<model::Outlet>(place.data)) {
      add_level(input, -small, MoveLevel::What::Outlet, place.name);
      add_level(input, -large, MoveLevel::What::Outlet, place.name);
    } else if (std::holds_alternative<model::Creek>(place.data)) {
      add_level(input, small, MoveLevel::What::CreekIntake, place.name);
      add_level(input, large, MoveLevel::What::CreekIntake, place.name);
    } else if (std::holds_alternative<model::Spring>(place.data)) {
      add_level(input, small, MoveLevel::What::Spring, place.name);
    } else if (std::holds_alternative<model::Tank>(place.data)) {
      add_level(input, large, MoveLevel::What::Tank, place.name);
    }
  }

  void add_level(const FarmInput& input,
                 double by_m,
                 MoveLevel::What what,
                 const std::string& where) {
    const bool is_end = input.kind == InputKind::EndLevel;
    Change change;
    change.kind = by_m < 0.0 ? ChangeKind::FloatLower : ChangeKind::SourceHigher;
    change.where = where;
    (is_end ? change.pipe : change.place) = input.index;
    change.settings.push_back(setting_of(
        MoveLevel{what, where, std::abs(by_m)}, std::nullopt, [input, by_m](model::Farm& farm) {
          const model::Farm base = farm;
          set_input(farm, base, input, by_m);
        }));
    changes_.push_back(std::move(change));
  }

  /// Smaller seats where others drink, wider ones where water is wanted.
  void add_seats(std::size_t index) {
    const auto& trough = std::get<model::Trough>(farm_.places[index].data);
    const bool is_target = index == aim_.place;
    if (is_target && !trough.seat && !trough.passes) {
      return;  // nothing known to hold it back
    }
    Change change = change_at(ChangeKind::Seat, index);
    for (const double seat_mm : seats_mm) {
      const double now_mm = trough.seat ? in_millimetres(*trough.seat) : seats_mm.front() + 1.0;
      if (is_target ? trough.seat && seat_mm <= now_mm : seat_mm >= now_mm) {
        continue;
      }
      change.settings.push_back(setting_of(ChangeSeat{farm_.places[index].name, seat_mm, is_target},
                                           std::nullopt,
                                           [index, seat_mm](model::Farm& farm) {
                                             auto& changed =
                                                 std::get<model::Trough>(farm.places[index].data);
                                             changed.seat = millimetres(seat_mm);
                                             changed.passes.reset();
                                           }));
    }
    if (!change.settings.empty()) {
      changes_.push_back(std::move(change));
    }
  }

  /// A store that fills day and night carries a trough over the hours in which its stock drink.
  void add_store(std::size_t index) {
    const auto& trough = std::get<model::Trough>(farm_.places[index].data);
    const bool is_daily = std::holds_alternative<model::DailyNeed>(trough.need) ||
                          std::holds_alternative<model::HerdNeed>(trough.need);
    const auto need = trough_need_m3_s(farm_, index, aim_.answer->month);
    const double drunk_h = in_hours(trough.within);
    if (!is_daily || !need || drunk_h >= day_h - 0.5 || aim_.answer->load_case != LoadCase::Needs) {
      return;
    }
    const double day_m3 = *need * in_seconds(trough.within);
    const double held_m3 = day_m3 * (1.0 - drunk_h / day_h);
    Change change = change_at(ChangeKind::Store, index);
    Setting setting = setting_of(
        BuildStore{farm_.places[index].name, held_m3}, std::nullopt, [index](model::Farm& farm) {
          auto& fed = std::get<model::Trough>(farm.places[index].data);
          fed.within = hours(day_h);
          fed.drinks.clear();
        });
    setting.stored_place = index;
    setting.stored_hours = day_h / drunk_h;
    change.settings.push_back(std::move(setting));
    changes_.push_back(std::move(change));
  }

  void add_tank(std::size_t index) {
    const auto has_end = [&](std::size_t model::Pipe::*end) {
      return std::any_of(farm_.pipes.begin(), farm_.pipes.end(), [&](const model::Pipe& pipe) {
        return pipe.*end == index;
      });
    };
    if (!has_end(&model::Pipe::from) || !has_end(&model::Pipe::to) || holds_lifter(index)) {
      return;
    }
    Change change = change_at(ChangeKind::Tank, index);
    change.settings.push_back(
        setting_of(BuildSettlingTank{farm_.places[index].name, tank_depth_m},
                   std::nullopt,
                   [index](model::Farm& farm) {
                     model::Tank tank;
                     tank.floor = std::get<model::Tee>(farm.places[index].data).elevation;
                     tank.full = metres(tank_depth_m);
                     tank.settles = true;
                     farm.places[index].data = tank;
                     for (model::Pipe& pipe : farm.pipes) {
                       if (pipe.to == index && !pipe.path.empty()) {
                         pipe.path.back().elevation = tank.floor + tank.full;  // in over the rim
                       }
                     }
                   }));
    changes_.push_back(std::move(change));
  }

  [[nodiscard]] bool holds_lifter(std::size_t place) const {
    return std::any_of(
               farm_.pumps.begin(),
               farm_.pumps.end(),
               [&](const model::Pump& pump) { return pump.from == place || pump.to == place; }) ||
           std::any_of(farm_.rams.begin(), farm_.rams.end(), [&](const model::Ram& ram) {
             return farm_.pipes[ram.drive].to == place || farm_.pipes[ram.delivery].from == place;
           });
  }

  const ChangeAim& aim_;
  const model::Farm& farm_;
  std::vector<Change>& changes_;
};

}  // namespace

void add_place_changes(const ChangeAim& aim, std::vector<Change>& changes) {
  PlaceChanges(aim, changes).add();
}

}  // namespace leat::solver
