#include "solver/day/weather_notes.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>
#include <variant>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/catalogue/herd_catalogue.h"
#include "solver/day/day_weather.h"
#include "solver/hydrology/seepage.h"

namespace leat::solver {

namespace {

constexpr double mm_per_inch = 25.4;

std::string depth_a_day(double mm_per_day, model::UnitSystem units) {
  return units == model::UnitSystem::Us ? fmt::format("{:.3g} in", mm_per_day / mm_per_inch)
                                        : fmt::format("{:.3g} mm", mm_per_day);
}

std::string days_text(int days) {
  return days == 1 ? "1 day" : fmt::format("{} days", days);
}

bool any_by_warmth(const model::HerdNeed& need) {
  return std::any_of(need.herd.begin(), need.herd.end(), [](const model::HerdEntry& entry) {
    const model::CatalogueAnimal* const animal = model::find_animal(entry.animal);
    return animal != nullptr && animal->rows.size() > 1;
  });
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
  WeatherNotes(const model::Farm& farm, model::Date from, model::Date to, model::UnitSystem units)
      : farm_(farm), first_(model::day_number(from)), last_(model::day_number(to)), units_(units) {
    for (const model::Place& place : farm.places) {
      const auto* pond = std::get_if<model::Pond>(&place.data);
      has_pond_ = has_pond_ || (pond != nullptr && has_shape(*pond));
    }
  }

  [[nodiscard]] std::vector<std::string> write() {
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

  [[nodiscard]] std::string method_text(EvaporationMethod method) const {
    switch (method) {
      case EvaporationMethod::Pan:
        return fmt::format("what the pan loses times {:g}", farm_.weather->pan_coefficient);
      case EvaporationMethod::PenmanMonteith:
        return "1.05 times the reference of FAO-56 Penman-Monteith (of sun, wind and humidity, "
               "what "
               "is not told is guessed as FAO-56 says)";
      case EvaporationMethod::Hargreaves:
        return "1.05 times the reference of Hargreaves (FAO-56 equation 52), from temperatures and "
               "latitude alone";
      case EvaporationMethod::Nothing:
        break;
    }
    return "left out, as nothing tells of it";
  }

  void note_evaporation() {
    if (!has_pond_ || count_.days == 0) {
      return;
    }
    if (count_.by_method[static_cast<std::size_t>(EvaporationMethod::Nothing)] == count_.days) {
      const bool only_latitude_lacks = count_.without_warmth == 0;
      notes_.push_back(
          only_latitude_lacks
              ? "Evaporation is left out: it needs the site's latitude besides the temperatures, "
                "or "
                "the evaporation of a pan."
              : "Evaporation is left out: give weather the evaporation of a pan, or tmin and tmax "
                "and the site its latitude.");
      return;
    }
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < count_.by_method.size(); ++i) {
      const int days = count_.by_method[i];
      if (days > 0) {
        const std::string how = method_text(static_cast<EvaporationMethod>(i));
        parts.push_back(days == count_.days ? how : fmt::format("on {} {}", days_text(days), how));
      }
    }
    notes_.push_back(fmt::format("Evaporation of ponds is {}.", fmt::join(parts, "; ")));
  }

  /// "Rain on ponds: on 3 of 184 days ", or without the count where it is every day.
  [[nodiscard]] std::string on_days(int days) const {
    return days == count_.days ? std::string()
                               : fmt::format("on {} of {} ", days, days_text(count_.days));
  }

  void note_rain() {
    if (has_pond_ && count_.without_rain > 0) {
      notes_.push_back(fmt::format("Rain: {}nothing tells of it; none is counted.",
                                   on_days(count_.without_rain)));
    }
    if (has_pond_ && count_.bridged > 0) {
      notes_.push_back(
          fmt::format("Weather: {}what was not measured is taken as the straight line between the "
                      "days around it (gaps of at most {} days).",
                      on_days(count_.bridged),
                      FarmWeather::widest_bridge_days));
    }
  }

  void note_runoff() {
    const bool catches =
        std::any_of(farm_.places.begin(), farm_.places.end(), [](const model::Place& place) {
          const auto* pond = std::get_if<model::Pond>(&place.data);
          return pond != nullptr && has_shape(*pond) && pond->catchment;
        });
    if (!catches) {
      return;
    }
    if (count_.storms_by_months > 0) {
      notes_.push_back(fmt::format(
          "Runoff: {}the month's rain falls in equal rains, one on each of its rain days, evenly "
          "spaced; unequal rains run off more.",
          on_days(count_.storms_by_months)));
    }
    if (count_.without_storm > 0) {
      notes_.push_back(
          fmt::format("Runoff: {}only the month's rain is known, so none is counted: add 'rain "
                      "days' by month, or rain by the day.",
                      on_days(count_.without_storm)));
    }
  }

  void note_warmth() {
    if (drinks_by_warmth(farm_) && count_.without_warmth > 0) {
      notes_.push_back(fmt::format(
          "What stock drink: {}no air temperature is known; a summer day's amount is taken.",
          on_days(count_.without_warmth)));
    }
  }

  void note_grounds() {
    for (const model::Place& place : farm_.places) {
      const auto* pond = std::get_if<model::Pond>(&place.data);
      if (pond == nullptr) {
        continue;
      }
      if (has_shape(*pond)) {
        note_seepage(*pond, place.name);
      } else if (pond->catchment || !pond->stock.herd.empty() ||
                 !std::holds_alternative<std::monostate>(pond->seepage)) {
        notes_.push_back(fmt::format(
            "{} has no 'shape': its surface is taken as written, whatever seeps, runs in or is "
            "drunk.",
            place.name));
      }
    }
  }

  void note_seepage(const model::Pond& pond, const std::string& name) {
    if (std::holds_alternative<std::monostate>(pond.seepage)) {
      notes_.push_back(fmt::format("Seepage of {} is left out: give it a rate or its soil.", name));
    }
    const auto* soil = std::get_if<std::string>(&pond.seepage);
    const auto row = soil == nullptr ? std::nullopt : hydrology::seepage_of_soil(*soil);
    if (row) {
      notes_.push_back(
          fmt::format("Seepage of {}: {} a day, the middle of what {} lets through "
                      "({} to {}); the true one may lie anywhere between.",
                      name,
                      depth_a_day(hydrology::middle_mm_per_day(*row), units_),
                      *soil,
                      depth_a_day(row->low_mm_per_day, units_),
                      depth_a_day(row->high_mm_per_day, units_)));
    }
  }

  const model::Farm& farm_;
  int first_ = 0;  // day numbers of the season
  int last_ = 0;
  model::UnitSystem units_;
  bool has_pond_ = false;  // whose shape is known
  WeatherCount count_;
  std::vector<std::string> notes_;
};

}  // namespace

bool has_shape(const model::Pond& pond) {
  return !std::holds_alternative<std::monostate>(pond.shape);
}

bool drinks_by_warmth(const model::Farm& farm) {
  return std::any_of(farm.places.begin(), farm.places.end(), [](const model::Place& place) {
    if (const auto* trough = std::get_if<model::Trough>(&place.data)) {
      const auto* herd = std::get_if<model::HerdNeed>(&trough->need);
      return herd != nullptr && any_by_warmth(*herd);
    }
    const auto* pond = std::get_if<model::Pond>(&place.data);
    return pond != nullptr && has_shape(*pond) && any_by_warmth(pond->stock);
  });
}

std::vector<std::string> weather_notes(const model::Farm& farm,
                                       model::Date from,
                                       model::Date to,
                                       model::UnitSystem units) {
  return WeatherNotes(farm, from, to, units).write();
}

}  // namespace leat::solver
