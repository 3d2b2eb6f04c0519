// What is taken for granted when a farm is read day by day, in sentences.
#include <algorithm>
#include <array>
#include <variant>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "solver/day_values.h"
#include "solver/hydrology/seepage.h"

namespace leat::solver {

namespace {

using model::GapRule;

constexpr double mm_per_inch = 25.4;
/// A record with no date for so long is worth a word (about two months: a season may turn in it).
constexpr int long_gap_days = 62;

bool is_dug(const model::Pond& pond) {
  return !std::holds_alternative<std::monostate>(pond.shape);
}

std::string depth_a_day(double mm_per_day, model::UnitSystem units) {
  return units == model::UnitSystem::Us ? fmt::format("{:.2g} in", mm_per_day / mm_per_inch)
                                        : fmt::format("{:.2g} mm", mm_per_day);
}

std::string days_text(int days) {
  return days == 1 ? "1 day" : fmt::format("{} days", days);
}

/// "Jan to Mar, Jun": months that follow each other are drawn together.
std::string months_text(const std::array<bool, 12>& months) {
  std::vector<std::string> parts;
  for (std::size_t first = 0; first < months.size(); ++first) {
    if (!months[first]) {
      continue;
    }
    std::size_t last = first;
    while (last + 1 < months.size() && months[last + 1]) {
      ++last;
    }
    parts.push_back(first == last ? std::string(model::month_names[first])
                                  : fmt::format("{} {} {}",
                                                model::month_names[first],
                                                last == first + 1 ? "and" : "to",
                                                model::month_names[last]));
    first = last;
  }
  return fmt::format("{}", fmt::join(parts, ", "));
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

class NoteWriter {
 public:
  NoteWriter(const model::Farm& farm, model::Date from, model::Date to, model::UnitSystem units)
      : farm_(farm), first_(model::day_number(from)), last_(model::day_number(to)), units_(units) {
    const int days = last_ - first_ + 1;
    for (int day = first_; day <= last_ && day < first_ + std::min(days, 366); ++day) {
      months_[static_cast<std::size_t>(model::date_of_day(day).month - 1)] = true;
    }
  }

  [[nodiscard]] std::vector<std::string> write() {
    count_weather();
    note_places();
    note_weather_months();
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

  /// Says which months of the season a map did not give.
  template <class Value>
  void note_months(const model::MonthSeries<Value>& series, GapRule rule, const std::string& what) {
    std::array<bool, 12> assumed{};
    for (std::size_t month = 0; month < assumed.size(); ++month) {
      assumed[month] = series.assumed[month] && months_[month];
    }
    if (std::find(assumed.begin(), assumed.end(), true) == assumed.end()) {
      return;
    }
    const char* taken = rule == GapRule::Lower    ? "the lower of the months around them"
                        : rule == GapRule::Higher ? "the higher of the months around them"
                                                  : "the straight line between the months given";
    notes_.push_back(
        fmt::format("{}: nothing given for {}; taken as {}.", what, months_text(assumed), taken));
  }

  /// Says where a record does not reach, or leaves a long gap; there its months stand.
  template <class Value>
  void note_record(const model::MonthSeries<Value>& series,
                   const std::vector<model::Dated<Value>>& record,
                   GapRule rule,
                   const std::string& what) {
    if (record.empty()) {
      note_months(series, rule, what);
      return;
    }
    const int begins = model::day_number(record.front().on);
    const int ends = model::day_number(record.back().on);
    if (first_ < begins || last_ > ends) {
      notes_.push_back(fmt::format(
          "{}: measured from {} to {}; outside these dates each month takes the {} of what was "
          "measured in it.",
          what,
          model::date_text(record.front().on),
          model::date_text(record.back().on),
          rule == GapRule::Straight ? "mean" : "lowest"));
      note_months(series, rule, what);
    }
    for (std::size_t i = 1; i < record.size(); ++i) {
      const int before = model::day_number(record[i - 1].on);
      const int after = model::day_number(record[i].on);
      if (after - before > long_gap_days && before < last_ && after > first_) {
        notes_.push_back(
            fmt::format("{}: nothing measured between {} and {}; taken as the straight "
                        "line between the two.",
                        what,
                        model::date_text(record[i - 1].on),
                        model::date_text(record[i].on)));
      }
    }
  }

  void note_herd(const model::HerdNeed& herd, const std::string& name) {
    for (const model::HerdEntry& entry : herd.herd) {
      note_months(
          entry.heads, GapRule::Higher, fmt::format("Heads of {} at {}", entry.animal, name));
      const model::CatalogueAnimal* const animal = model::find_animal(entry.animal);
      drinks_by_warmth_ = drinks_by_warmth_ || (animal != nullptr && animal->rows.size() > 1);
    }
  }

  void note_place(const model::Spring& spring, const std::string& name) {
    note_record(spring.yield, spring.yield_record, GapRule::Lower, "Yield of " + name);
  }

  void note_place(const model::Creek& creek, const std::string& name) {
    note_record(creek.surface, creek.surface_record, GapRule::Lower, "Surface of " + name);
    if (creek.flow) {
      note_record(*creek.flow, creek.yield_record, GapRule::Lower, "Flow of " + name);
    }
    if (creek.spare) {
      note_record(*creek.spare, creek.spare_record, GapRule::Lower, "Spare water of " + name);
    }
  }

  void note_place(const model::Pond& pond, const std::string& name) {
    if (is_dug(pond)) {
      has_pond_ = true;
      note_herd(pond.stock, name);
      return;
    }
    note_record(pond.surface, pond.surface_record, GapRule::Lower, "Surface of " + name);
  }

  void note_place(const model::Trough& trough, const std::string& name) {
    if (const auto* rate = std::get_if<model::RateNeed>(&trough.need)) {
      note_months(rate->rate, GapRule::Higher, "Need of " + name);
    } else if (const auto* daily = std::get_if<model::DailyNeed>(&trough.need)) {
      note_months(daily->per_day, GapRule::Higher, "Need of " + name);
    } else if (const auto* herd = std::get_if<model::HerdNeed>(&trough.need)) {
      note_herd(*herd, name);
    }
  }

  void note_place(const model::Outlet& outlet, const std::string& name) {
    if (outlet.wished) {
      note_months(*outlet.wished, GapRule::Higher, "Wished flow of " + name);
    }
  }

  // Nothing about them changes from day to day.
  void note_place(const model::Tank&, const std::string&) {}
  void note_place(const model::Tee&, const std::string&) {}

  void note_places() {
    note_record(farm_.site.water, farm_.site.water_record, GapRule::Straight, "Water temperature");
    for (const model::Place& place : farm_.places) {
      std::visit([&](const auto& data) { note_place(data, place.name); }, place.data);
    }
  }

  template <class Value>
  void note_weather_key(const std::optional<model::MonthSeries<Value>>& series,
                        GapRule rule,
                        const std::string& what) {
    if (series) {
      note_months(*series, rule, what);
    }
  }

  void note_weather_months() {
    if (!farm_.weather || (!has_pond_ && !drinks_by_warmth_)) {
      return;
    }
    const model::Weather& weather = *farm_.weather;
    note_weather_key(weather.tmin, GapRule::Straight, "Lowest air temperature");
    note_weather_key(weather.tmax, GapRule::Straight, "Highest air temperature");
    if (!has_pond_) {
      return;
    }
    note_weather_key(weather.rain, GapRule::Lower, "Rain");
    note_weather_key(weather.rain_days, GapRule::Higher, "Days with rain");
    note_weather_key(weather.pan_evaporation, GapRule::Higher, "Evaporation of the pan");
    note_weather_key(weather.wind_m_s, GapRule::Higher, "Wind");
    note_weather_key(weather.humidity_percent, GapRule::Lower, "Humidity");
    note_weather_key(weather.sunshine_h, GapRule::Higher, "Sunshine");
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
          return pond != nullptr && is_dug(*pond) && pond->catchment;
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
    if (drinks_by_warmth_ && count_.without_warmth > 0) {
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
      if (is_dug(*pond)) {
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
  std::array<bool, 12> months_{};  // of the season
  WeatherCount count_;
  bool has_pond_ = false;          // whose shape is known
  bool drinks_by_warmth_ = false;  // some animal's amount follows the air
  std::vector<std::string> notes_;
};

}  // namespace

std::vector<std::string> day_value_notes(const model::Farm& farm,
                                         model::Date from,
                                         model::Date to,
                                         std::optional<model::UnitSystem> units) {
  return NoteWriter(farm, from, to, units.value_or(farm.show)).write();
}

}  // namespace leat::solver
