// Which months were not given, where records do not reach, and beds that leak.
#include <algorithm>
#include <array>
#include <iterator>
#include <utility>
#include <variant>

#include "solver/day/day_values.h"
#include "solver/day/weather_notes.h"
#include "solver/hydrology/seepage.h"

namespace leat::solver {

namespace {

using model::GapRule;

/// A record with no date for so long is worth a word (about two months: a season may turn in it).
constexpr int long_gap_days = 62;

class MonthNotes {
 public:
  MonthNotes(const model::Farm& farm, model::Date from, model::Date to)
      : farm_(farm), first_(model::day_number(from)), last_(model::day_number(to)) {
    add_months(first_, last_);
  }

  /// Notes of months and records.
  [[nodiscard]] std::vector<SeasonNote> find() {
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

  /// Notes which months of the season a map did not give.
  template <class Value>
  void note_months(const model::MonthSeries<Value>& series, GapRule rule, const SeriesName& what) {
    std::array<bool, 12> assumed{};
    for (std::size_t month = 0; month < assumed.size(); ++month) {
      assumed[month] = series.assumed[month] && months_[month];
    }
    if (std::find(assumed.begin(), assumed.end(), true) == assumed.end()) {
      return;
    }
    notes_.emplace_back(MonthsFilled{.series = what, .months = assumed, .rule = rule});
  }

  /// Notes where a record does not reach, or leaves a long gap; there its months stand.
  template <class Value>
  void note_record(const model::MonthSeries<Value>& series,
                   const std::vector<model::Dated<Value>>& record,
                   GapRule rule,
                   const SeriesName& what) {
    if (record.empty()) {
      note_months(series, rule, what);
      return;
    }
    const int begins = model::day_number(record.front().on);
    const int ends = model::day_number(record.back().on);
    if (first_ < begins || last_ > ends) {
      notes_.emplace_back(BeyondRecord{
          .series = what, .first = record.front().on, .last = record.back().on, .rule = rule});
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
        notes_.emplace_back(
            RecordGap{.series = what, .from = record[i - 1].on, .to = record[i].on});
      }
    }
  }

  void note_herd(const model::HerdNeed& herd, const std::string& name) {
    for (const model::HerdEntry& entry : herd.herd) {
      note_months(entry.heads, GapRule::Higher, {SeriesKind::Heads, name, entry.animal});
    }
  }

  void note_place(const model::Spring& spring, const std::string& name) {
    note_record(spring.yield, spring.yield_record, GapRule::Lower, {SeriesKind::Yield, name, {}});
  }

  void note_place(const model::Creek& creek, const std::string& name) {
    note_record(
        creek.surface, creek.surface_record, GapRule::Lower, {SeriesKind::Surface, name, {}});
    if (creek.flow) {
      note_record(
          *creek.flow, creek.yield_record, GapRule::Lower, {SeriesKind::CreekFlow, name, {}});
    }
    if (creek.spare) {
      note_record(
          *creek.spare, creek.spare_record, GapRule::Lower, {SeriesKind::SpareWater, name, {}});
    }
  }

  void note_place(const model::Pond& pond, const std::string& name) {
    if (has_shape(pond)) {
      has_pond_ = true;
      note_herd(pond.stock, name);
      note_seepage(pond.seepage, name);
      return;
    }
    note_record(pond.surface, pond.surface_record, GapRule::Lower, {SeriesKind::Surface, name, {}});
  }

  /// Water led into a pond that leaks is water given away.
  void note_seepage(const model::Seepage& seepage, const std::string& name) {
    const double a_day_m = seepage_a_day_m(seepage);
    const hydrology::SeepageJudgement judged = hydrology::judge_seepage(1e3 * a_day_m);
    const bool is_leaky = judged == hydrology::SeepageJudgement::Leaky;
    if (!is_leaky && judged != hydrology::SeepageJudgement::Heavy) {
      return;
    }
    notes_.emplace_back(BedLoses{.pond = name, .a_day_m = a_day_m, .is_leak = is_leaky});
  }

  void note_place(const model::Trough& trough, const std::string& name) {
    if (const auto* rate = std::get_if<model::RateNeed>(&trough.need)) {
      note_months(rate->rate, GapRule::Higher, {SeriesKind::Need, name, {}});
    } else if (const auto* daily = std::get_if<model::DailyNeed>(&trough.need)) {
      note_months(daily->per_day, GapRule::Higher, {SeriesKind::Need, name, {}});
    } else if (const auto* herd = std::get_if<model::HerdNeed>(&trough.need)) {
      note_herd(*herd, name);
    }
  }

  void note_place(const model::Outlet& outlet, const std::string& name) {
    if (outlet.wished) {
      note_months(*outlet.wished, GapRule::Higher, {SeriesKind::WishedFlow, name, {}});
    }
  }

  // Nothing about them changes from day to day.
  void note_place(const model::Tank&, const std::string&) {}
  void note_place(const model::Tee&, const std::string&) {}

  void note_places() {
    note_record(farm_.site.water,
                farm_.site.water_record,
                GapRule::Straight,
                {SeriesKind::WaterTemperature, {}, {}});
    for (const model::Place& place : farm_.places) {
      std::visit([&](const auto& data) { note_place(data, place.name); }, place.data);
    }
  }

  template <class Value>
  void note_weather_key(const std::optional<model::MonthSeries<Value>>& series,
                        GapRule rule,
                        SeriesKind kind) {
    if (series) {
      note_months(*series, rule, {kind, {}, {}});
    }
  }

  void note_weather_months() {
    const bool warmth_matters = has_pond_ || drinks_by_warmth(farm_);
    if (!farm_.weather || !warmth_matters) {
      return;
    }
    const model::Weather& weather = *farm_.weather;
    note_weather_key(weather.tmin, GapRule::Straight, SeriesKind::LowestAir);
    note_weather_key(weather.tmax, GapRule::Straight, SeriesKind::HighestAir);
    if (!has_pond_) {
      return;
    }
    note_weather_key(weather.rain, GapRule::Lower, SeriesKind::Rain);
    note_weather_key(weather.rain_days, GapRule::Higher, SeriesKind::RainDays);
    note_weather_key(weather.pan_evaporation, GapRule::Higher, SeriesKind::PanEvaporation);
    note_weather_key(weather.wind_m_s, GapRule::Higher, SeriesKind::Wind);
    note_weather_key(weather.humidity_percent, GapRule::Lower, SeriesKind::Humidity);
    note_weather_key(weather.sunshine_h, GapRule::Higher, SeriesKind::Sunshine);
  }

  const model::Farm& farm_;
  int first_ = 0;  // day numbers of the season
  int last_ = 0;
  std::array<bool, 12> months_{};  // of the season
  bool has_pond_ = false;          // whose shape is known
  std::vector<SeasonNote> notes_;
};

}  // namespace

std::vector<SeasonNote> day_value_notes(const model::Farm& farm, model::Date from, model::Date to) {
  std::vector<SeasonNote> notes = MonthNotes(farm, from, to).find();
  std::vector<SeasonNote> weather = weather_notes(farm, from, to);
  notes.insert(notes.end(),
               std::make_move_iterator(weather.begin()),
               std::make_move_iterator(weather.end()));
  return notes;
}

}  // namespace leat::solver
