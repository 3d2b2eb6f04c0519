#include "solver/season/first_short.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "solver/day/day_values.h"
#include "solver/day/farm_of_day.h"
#include "solver/findings/states.h"
#include "solver/flow/driest_month.h"
#include "solver/flow/solved_case.h"
#include "solver/network/network_of_farm.h"

namespace leat::solver {

namespace {

using model::AnyOf;
using model::Creek;
using model::Outlet;
using model::Pond;
using model::Spring;
using model::Tank;
using model::Tee;
using model::Trough;

/// The place of a spring.
std::optional<std::size_t> spring_named(const model::Farm& farm, const std::string& name) {
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    if (model::is_spring(farm.places[i]) && farm.places[i].name == name) {
      return i;
    }
  }
  return std::nullopt;
}

/// The yield is lowered by this share until troughs go short; then halves find the yield itself.
constexpr double lowering = 0.9;
constexpr double least_share = 1e-3;  // of the yield it begins with; below this comes nothing
constexpr int halvings = 24;

class FallingSpring {
 public:
  FallingSpring(const model::Farm& farm, std::size_t spring, SeasonAnswer& answer)
      : source_(farm), spring_(spring), answer_(answer) {
    // The worst day: the middle of the driest month, tanks at the level they settle at.
    const model::Month month = driest_month(farm).value_or(model::Month::Aug);
    const model::Date day{answer.from.year, static_cast<int>(month) + 1, 15};
    std::vector<StoreNote> ignored;
    const DayValues values = day_values(farm, day);
    const FarmStores stores(farm, day, ignored);
    const bool stores_a_day = has_store(farm);
    std::vector<double> wanted(farm.places.size(), 0.0);
    std::vector<double> levels;
    for (const StoreLaw& store : stores.laws()) {
      levels.push_back(store.start_m);
    }
    for (std::size_t i = 0; i < farm.places.size(); ++i) {
      const PlaceDay& at = values.places[i];
      if (at.need_m3) {
        // With water stored the day's mean counts, else what is drunk while stock drink.
        const double hours = stores_a_day ? 24.0 : drinking_hours(farm.places[i]);
        wanted[i] = *at.need_m3 / (3600.0 * hours);
      } else {
        wanted[i] = at.wished_m3_s.value_or(0.0);
      }
      wanted_m3_s_ += wanted[i];
    }
    farm_ = farm_at(farm, values, stores, levels, wanted);
    for (model::Place& place : farm_.places) {
      std::visit(Overload{[](Tank& tank) { tank.settles = true; },
                          [](const AnyOf<Spring, Creek, Pond, Trough, Outlet, Tee> auto&) {}},
                 place.data);
    }
  }

  void find() {
    const model::MonthSeries<Flow>& yield = *model::yield_of(source_.places[spring_]);
    double most = 2.0 * wanted_m3_s_;
    for (const Flow& month : yield.by_month) {
      most = std::max(most, in_cubic_metres_per_second(month));
    }
    if (most <= 0.0) {
      return;
    }
    std::vector<bool> open = short_at(most);
    for (std::size_t i = 0; i < open.size(); ++i) {
      if (open[i]) {
        answer_.notes.emplace_back(ShortAtAnyYield{name(places_[i]), name(spring_)});
      }
    }
    double high = most;
    for (double low = most * lowering;; low *= lowering) {
      const bool is_last = low < most * least_share;
      const std::vector<bool> shorts = short_at(is_last ? 0.0 : low);
      for (std::size_t i = 0; i < shorts.size(); ++i) {
        if (shorts[i] && !open[i]) {
          open[i] = true;
          answer_.first_short.push_back({places_[i], between(i, is_last ? 0.0 : low, high)});
        }
      }
      high = low;
      if (is_last) {
        break;
      }
    }
    std::stable_sort(
        answer_.first_short.begin(),
        answer_.first_short.end(),
        [](const FirstShort& a, const FirstShort& b) { return a.yield_m3_s > b.yield_m3_s; });
  }

 private:
  static bool has_store(const model::Farm& farm) {
    return std::any_of(farm.places.begin(), farm.places.end(), [](const model::Place& place) {
      return std::visit(
          Overload{[](const Tank& tank) { return tank.area.has_value(); },
                   [](const Trough& trough) { return trough.holds.has_value(); },
                   [](const AnyOf<Spring, Creek, Pond, Outlet, Tee> auto&) { return false; }},
          place.data);
    });
  }

  [[nodiscard]] const std::string& name(std::size_t place) const {
    return source_.places[place].name;
  }

  /// Which of `places_` go short at a yield.
  std::vector<bool> short_at(double yield_m3_s) {
    std::visit(Overload{[yield_m3_s](Spring& spring) {
                          spring.yield = model::MonthSeries<Flow>::constant(
                              cubic_metres_per_second(yield_m3_s));
                        },
                        [](const AnyOf<Creek, Pond, Tank, Trough, Outlet, Tee> auto&) {}},
               farm_.places[spring_].data);
    const SolvedCase solved =
        solve_running_case(farm_, surroundings_of(farm_, std::nullopt), NetworkOptions{});
    std::vector<bool> shorts;
    places_.clear();
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      const model::Need* need = model::need_of_stock(farm_.places[i]);
      const bool wants = (need != nullptr && !std::holds_alternative<model::NoNeed>(*need)) ||
                         model::wish_of(farm_.places[i]) != nullptr;
      if (wants) {
        places_.push_back(i);
        // Where no balance was found nothing is claimed.
        shorts.push_back(!solved.places.empty() && solved.places[i].met.value_or(1.0) < met_limit);
      }
    }
    return shorts;
  }

  double between(std::size_t trough, double low, double high) {
    for (int i = 0; i < halvings; ++i) {
      const double middle = 0.5 * (low + high);
      (short_at(middle)[trough] ? low : high) = middle;
    }
    return high;
  }

  const model::Farm& source_;
  std::size_t spring_;
  SeasonAnswer& answer_;
  model::Farm farm_;
  double wanted_m3_s_ = 0.0;
  std::vector<std::size_t> places_;
};

}  // namespace

void find_first_short(const model::Farm& farm, const SeasonOptions& options, SeasonAnswer& answer) {
  FallingSpring(farm, *spring_named(farm, *options.until_dry), answer).find();
}

std::optional<SeasonProblem> spring_problem(const model::Farm& farm, const std::string& name) {
  if (spring_named(farm, name)) {
    return std::nullopt;
  }
  UnknownSpring problem{name, {}};
  for (const model::Place& place : farm.places) {
    if (model::is_spring(place)) {
      problem.springs.push_back(place.name);
    }
  }
  return problem;
}

}  // namespace leat::solver
