#include <cmath>
#include <utility>

#include <fmt/format.h>

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

/// "3 of the 8 h" where all troughs drink through the same hours, else "3/8 of the hours".
std::string share_words(const model::Farm& farm, int parts) {
  std::optional<double> same_h;
  bool differ = false;
  for (const model::Place& place : farm.places) {
    if (const auto* const trough = std::get_if<model::Trough>(&place.data)) {
      const double within_h = in_hours(trough->within);
      differ = differ || (same_h && std::abs(*same_h - within_h) > 1e-6);
      same_h = within_h;
    }
  }
  return differ || !same_h
             ? fmt::format("{}/{} of the hours", parts, parts_of_hours)
             : fmt::format("{:.3g} of the {:.3g} h", *same_h * parts / parts_of_hours, *same_h);
}

}  // namespace

void add_hour_changes(const ChangeAim& aim, std::vector<Change>& changes) {
  const model::Farm& farm = *aim.farm;
  int troughs = 0;
  for (const model::Place& place : farm.places) {
    troughs += std::holds_alternative<model::Trough>(place.data) ? 1 : 0;
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
    setting.words = fmt::format("troughs in turn: {} alone for {}, the others shut meanwhile",
                                farm.places[aim.place].name,
                                share_words(farm, parts));
    setting.cost = nothing_bought(farm);
    setting.phases = {{share, turn(Turn::Target, share)},
                      {1.0 - share, turn(Turn::Others, 1.0 - share)}};
    change.settings.push_back(std::move(setting));
  }
  changes.push_back(std::move(change));
}

}  // namespace leat::solver
