// Which months were not given and where records do not reach, in sentences.
#include <algorithm>
#include <array>
#include <variant>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "solver/day/day_values.h"
#include "solver/day/weather_notes.h"
#include "solver/hydrology/seepage.h"

namespace leat::solver {

namespace {

using model::GapRule;

/// A record with no date for so long is worth a word (about two months: a season may turn in it).
constexpr int long_gap_days = 62;

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

class MonthNotes {
 public:
  MonthNotes(const model::Farm& farm, model::Date from, model::Date to, model::UnitSystem units)
      : farm_(farm), units_(units), first_(model::day_number(from)), last_(model::day_number(to)) {
    add_months(first_, last_);
  }

  /// Notes of months and records.
  [[nodiscard]] std::vector<std::string> write() {
    note_places();
    note_weather_months();
    return std::move(notes_);
  }

 private:
  /// Counts the months of these days (none where `last` comes before `first`) to the season's.
  void add_months(int first, int last) {
    constexpr int longest_year = 366;
    for (int day = first; day <= last && day < first + longest_year; ++day) {
      months_[static_cast<std::size_t>(model::date_of_day(day).month - 1)] = true;
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
      // Only the months of the days that the record does not reach.
      const std::array<bool, 12> season = months_;
      months_.fill(false);
      add_months(first_, std::min(begins - 1, last_));
      add_months(std::max(ends + 1, first_), last_);
      note_months(series, rule, what);
      months_ = season;
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
    if (has_shape(pond)) {
      has_pond_ = true;
      note_herd(pond.stock, name);
      note_seepage(pond.seepage, name);
      return;
    }
    note_record(pond.surface, pond.surface_record, GapRule::Lower, "Surface of " + name);
  }

  /// Water led into a pond that leaks is water given away.
  void note_seepage(const model::Seepage& seepage, const std::string& name) {
    const double a_day_m = seepage_a_day_m(seepage);
    const hydrology::SeepageJudgement judged = hydrology::judge_seepage(1e3 * a_day_m);
    const bool is_leaky = judged == hydrology::SeepageJudgement::Leaky;
    if (!is_leaky && judged != hydrology::SeepageJudgement::Heavy) {
      return;
    }
    const bool is_us = units_ == model::UnitSystem::Us;
    notes_.push_back(fmt::format(
        "{}: {} a day through its bed is {}; a sound pond loses up to {}. Have the bed looked at "
        "before more water is led there.",
        name,
        is_us ? fmt::format("{:.1f} in", in_feet(metres(a_day_m)) * 12.0)
              : fmt::format("{:.0f} mm", 1e3 * a_day_m),
        is_leaky ? "a leak" : "much",
        is_us ? "1/4 in" : "6 mm"));
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
    const bool warmth_matters = has_pond_ || drinks_by_warmth(farm_);
    if (!farm_.weather || !warmth_matters) {
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

  const model::Farm& farm_;
  model::UnitSystem units_;
  int first_ = 0;  // day numbers of the season
  int last_ = 0;
  std::array<bool, 12> months_{};  // of the season
  bool has_pond_ = false;          // whose shape is known
  std::vector<std::string> notes_;
};

}  // namespace

std::vector<std::string> day_value_notes(const model::Farm& farm,
                                         model::Date from,
                                         model::Date to,
                                         std::optional<model::UnitSystem> units) {
  std::vector<std::string> notes = MonthNotes(farm, from, to, units.value_or(farm.show)).write();
  const auto weather = weather_notes(farm, from, to, units.value_or(farm.show));
  notes.insert(notes.end(), weather.begin(), weather.end());
  return notes;
}

}  // namespace leat::solver
