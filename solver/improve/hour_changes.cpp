#include <cmath>
#include <utility>

#include "solver/improve/possible_changes.h"

namespace leat::solver {

namespace {

/// Shares of the drinking hours tried, in eighths.
constexpr int parts_of_hours = 8;

/// The same water in so much less time.
void drink_in_share(model::Trough& trough, double share) {
  if (auto* const rate = std::get_if<model::RateNeed>(&trough.need)) {
    for (Flow& flow : rate->rate.by_month) {
      flow = flow / share;
    }
    return;
  }
  trough.within = trough.within * share;
}

void shut_off(model::Trough& trough) {
  trough.need = model::RateNeed{model::MonthSeries<Flow>::constant(cubic_metres_per_second(0.0))};
}

enum class Turn { Target, Others };

void give_turn(model::Farm& farm, std::size_t target, Turn turn, double share) {
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    auto* const trough = std::get_if<model::Trough>(&farm.places[i].data);
    if (trough == nullptr) {
      continue;
    }
    if ((i == target) == (turn == Turn::Target)) {
      drink_in_share(*trough, share);
    } else {
      shut_off(*trough);
    }
  }
}

/// The hours [h] through which all troughs drink; none where they differ.
std::optional<double> hours_of_all(const model::Farm& farm) {
  std::optional<double> same_h;
  for (const model::Place& place : farm.places) {
    if (!model::is_trough(place)) {
      continue;
    }
    const double within_h = in_hours(model::drinking_time_of(place));
    if (same_h && std::abs(*same_h - within_h) > 1e-6) {
      return std::nullopt;
    }
    same_h = within_h;
  }
  return same_h;
}

}  // namespace

void add_hour_changes(const ChangeAim& aim, std::vector<Change>& changes) {
  const model::Farm& farm = *aim.farm;
  int troughs = 0;
  for (const model::Place& place : farm.places) {
    troughs += model::is_trough(place) ? 1 : 0;
  }
  const auto need = trough_need_m3_s(farm, aim.place, aim.answer->month);
  if (troughs < 2 || !need || *need <= 0.0 || aim.answer->load_case != LoadCase::Needs) {
    return;
  }
  Change change;
  change.kind = ChangeKind::Hours;
  change.where = farm.places[aim.place].name;
  change.place = aim.place;
  for (int parts = 1; parts < parts_of_hours; ++parts) {
    const double share = static_cast<double>(parts) / parts_of_hours;
    const auto turn = [target = aim.place](Turn whose, double part) {
      return
          [target, whose, part](model::Farm& changed) { give_turn(changed, target, whose, part); };
    };
    Setting setting;
    setting.action =
        TakeTurns{farm.places[aim.place].name, parts, parts_of_hours, hours_of_all(farm)};
    setting.cost = nothing_bought(farm);
    setting.phases = {{share, turn(Turn::Target, share)},
                      {1.0 - share, turn(Turn::Others, 1.0 - share)}};
    change.settings.push_back(std::move(setting));
  }
  changes.push_back(std::move(change));
}

}  // namespace leat::solver
