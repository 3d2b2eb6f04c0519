#include "solver/day/weather_notes.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>
#include <variant>

#include "model/catalogue/herd_catalogue.h"
#include "solver/day/day_weather.h"
#include "solver/hydrology/seepage.h"

namespace leat::solver {

namespace {

bool any_by_warmth(const model::HerdNeed& need) {
  return std::any_of(need.herd.begin(), need.herd.end(), [](const model::HerdEntry& entry) {
    const model::CatalogueAnimal* const animal = model::find_animal(entry.animal);
    return animal != nullptr && animal->rows.size() > 1;
  });
}

/// The pond; nullptr at all other places.
const model::Pond* pond_of(const model::Place& place) {
  using namespace model;
  return std::visit(
      Overload{[](const Pond& pond) -> const Pond* { return &pond; },
               [](const AnyOf<Spring, Creek, Tank, Trough, Outlet, Tee> auto&) -> const Pond* {
                 return nullptr;
               }},
      place.data);
}

/// A pond whose shape is known; nullptr at all other places.
const model::Pond* shaped_pond(const model::Place& place) {
  const model::Pond* pond = pond_of(place);
  return pond != nullptr && has_shape(*pond) ? pond : nullptr;
}

/// What a day's weather leaves open, counted over the season.
struct WeatherCount {
  int days = 0;
  std::array<int, 4> by_method{};  // by EvaporationMethod
  int without_rain = 0;
  int without_storm = 0;     // rain is known, not on which days it fell
  int storms_by_months = 0;  // days whose rain is laid out by the month's days with rain
  int without_warmth = 0;
  int bridged = 0;
};

class WeatherNotes {
 public:
  WeatherNotes(const model::Farm& farm, model::Date from, model::Date to)
      : farm_(farm), first_(model::day_number(from)), last_(model::day_number(to)) {
    for (const model::Place& place : farm.places) {
      has_pond_ = has_pond_ || shaped_pond(place) != nullptr;
    }
  }

  [[nodiscard]] std::vector<SeasonNote> find() {
    count_weather();
    note_evaporation();
    note_rain();
    note_runoff();
    note_warmth();
    note_grounds();
    return std::move(notes_);
  }

 private:
  void count_weather() {
    const FarmWeather weather(farm_);
    for (int day = first_; day <= last_; ++day) {
      const DayWeather today = weather.on(model::date_of_day(day));
      ++count_.days;
      ++count_.by_method[static_cast<std::size_t>(today.evaporation_by)];
      count_.without_rain += today.rain_m ? 0 : 1;
      count_.without_storm += today.rain_m && !today.storm_m ? 1 : 0;
      count_.storms_by_months += today.storm_by_months ? 1 : 0;
      count_.without_warmth += today.mean_C() ? 0 : 1;
      count_.bridged += today.bridged ? 1 : 0;
    }
  }

  void note_evaporation() {
    if (!has_pond_ || count_.days == 0) {
      return;
    }
    if (count_.by_method[static_cast<std::size_t>(EvaporationMethod::Nothing)] == count_.days) {
      notes_.emplace_back(EvaporationLeftOut{.lacks_latitude_alone = count_.without_warmth == 0});
      return;
    }
    EvaporationReckoned reckoned{
        .days_by_method = count_.by_method, .days = count_.days, .pan_coefficient = {}};
    if (farm_.weather) {
      reckoned.pan_coefficient = farm_.weather->pan_coefficient;
    }
    notes_.emplace_back(reckoned);
  }

  [[nodiscard]] DayCount of_the_season(int days) const { return {days, count_.days}; }

  void note_rain() {
    if (has_pond_ && count_.without_rain > 0) {
      notes_.emplace_back(RainUntold{of_the_season(count_.without_rain)});
    }
    if (has_pond_ && count_.bridged > 0) {
      notes_.emplace_back(
          WeatherBridged{of_the_season(count_.bridged), FarmWeather::widest_bridge_days});
    }
  }

  void note_runoff() {
    const bool catches =
        std::any_of(farm_.places.begin(), farm_.places.end(), [](const model::Place& place) {
          const model::Pond* pond = shaped_pond(place);
          return pond != nullptr && pond->catchment;
        });
    if (!catches) {
      return;
    }
    if (count_.storms_by_months > 0) {
      notes_.emplace_back(StormsByMonth{of_the_season(count_.storms_by_months)});
    }
    if (count_.without_storm > 0) {
      notes_.emplace_back(RunoffUncounted{of_the_season(count_.without_storm)});
    }
  }

  void note_warmth() {
    if (drinks_by_warmth(farm_) && count_.without_warmth > 0) {
      notes_.emplace_back(WarmthUntold{of_the_season(count_.without_warmth)});
    }
  }

  void note_grounds() {
    for (const model::Place& place : farm_.places) {
      const model::Pond* pond = pond_of(place);
      if (pond == nullptr) {
        continue;
      }
      if (has_shape(*pond)) {
        note_seepage(*pond, place.name);
      } else if (pond->catchment || !pond->stock.herd.empty() ||
                 !std::holds_alternative<std::monostate>(pond->seepage)) {
        notes_.emplace_back(PondWithoutShape{place.name});
      }
    }
  }

  void note_seepage(const model::Pond& pond, const std::string& name) {
    if (std::holds_alternative<std::monostate>(pond.seepage)) {
      notes_.emplace_back(SeepageLeftOut{name});
    }
    const auto* soil = std::get_if<std::string>(&pond.seepage);
    const auto row = soil == nullptr ? std::nullopt : hydrology::seepage_of_soil(*soil);
    if (row) {
      notes_.emplace_back(SeepageOfSoil{.pond = name,
                                        .soil = *soil,
                                        .middle_mm_day = hydrology::middle_mm_per_day(*row),
                                        .low_mm_day = row->low_mm_per_day,
                                        .high_mm_day = row->high_mm_per_day});
    }
  }

  const model::Farm& farm_;
  int first_ = 0;  // day numbers of the season
  int last_ = 0;
  bool has_pond_ = false;  // whose shape is known
  WeatherCount count_;
  std::vector<SeasonNote> notes_;
};

}  // namespace

bool has_shape(const model::Pond& pond) {
  return !std::holds_alternative<std::monostate>(pond.shape);
}

bool drinks_by_warmth(const model::Farm& farm) {
  return std::any_of(farm.places.begin(), farm.places.end(), [](const model::Place& place) {
    if (const model::Need* need = model::need_of_stock(place)) {
      const auto* herd = std::get_if<model::HerdNeed>(need);
      return herd != nullptr && any_by_warmth(*herd);
    }
    const model::Pond* pond = shaped_pond(place);
    return pond != nullptr && any_by_warmth(pond->stock);
  });
}

std::vector<SeasonNote> weather_notes(const model::Farm& farm, model::Date from, model::Date to) {
  return WeatherNotes(farm, from, to).find();
}

}  // namespace leat::solver
