// Room: what one day or stretch of days brings to a farm, as values by place and as the farm of
// that day. What one day brings to the farm: yields, levels, temperatures, needs, rain and sun.
// Monthly values are joined mid-month to mid-month around the year; measured records stand on their
// dates.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "model/catalogue/herd_catalogue.h"
#include "model/farm/farm.h"
#include "solver/answer/season_note.h"
#include "solver/day/dated_line.h"
#include "solver/day/day_weather.h"

namespace leat::solver {

/// What sky and ground do to one pond on one day.
struct PondDay {
  double rain_m = 0.0;         // depth on the pond itself
  double evaporation_m = 0.0;  // depth of open water
  double seepage_m = 0.0;      // depth a day over the wetted surface
  double runoff_m3 = 0.0;      // from its catchment
  double stock_m3 = 0.0;       // what stock want to drink from it
};

/// One place on one day. Only what its kind has is set.
struct PlaceDay {
  std::optional<double> yield_m3_s;   // spring
  std::optional<double> surface_m;    // creek, and pond without a known shape
  std::optional<double> flow_m3_s;    // what a creek carries
  std::optional<double> spare_m3_s;   // what may be taken from it
  std::optional<double> need_m3;      // trough: the day's amount; none where no need is given. A
                                      // rate counts for the hours in which its stock drink
  std::optional<double> wished_m3_s;  // outlet
  std::optional<PondDay> pond;        // pond whose shape is known
};

struct DayValues {
  double water_C = 15.0;
  std::optional<double> lowest_air_C;
  std::optional<double> mean_air_C;
  std::vector<PlaceDay> places;  // by place of the farm
};

/// A farm made ready to be read day by day: for a season, make it once. The farm is not needed
/// afterwards. Throws std::logic_error for an animal or a soil that the loader would have refused.
class FarmDays {
 public:
  explicit FarmDays(const model::Farm& farm);

  [[nodiscard]] DayValues on(model::Date date) const;
  /// The same into values kept from another day of the same farm, without asking for memory anew.
  void read(model::Date date, DayValues& values) const;

 private:
  /// Mid-month values, and what was measured on dates instead.
  struct Course {
    std::array<double, 12> months{};
    DatedLine record;
  };
  struct Drinkers {
    const model::CatalogueAnimal* animal = nullptr;
    std::array<double, 12> heads{};
  };
  struct Ground {
    double seepage_m = 0.0;
    double catchment_m2 = 0.0;
    double curve_number = 0.0;
  };
  /// What one place is made ready for; only what its kind has is set.
  struct ReadyPlace {
    std::optional<Course> yield_m3_s;
    std::optional<Course> surface_m;
    std::optional<Course> flow_m3_s;
    std::optional<Course> spare_m3_s;
    std::optional<Course> need_m3;  // a day
    std::optional<Course> wished_m3_s;
    std::optional<std::vector<Drinkers>> herd;
    std::optional<Ground> ground;
  };
  struct Moment;

  template <class Value>
  [[nodiscard]] static Course course(const model::MonthSeries<Value>& months,
                                     const std::vector<model::Dated<Value>>& record = {});
  [[nodiscard]] static std::vector<Drinkers> drinkers(const model::HerdNeed& herd);
  [[nodiscard]] static ReadyPlace ready(const model::Place& place);
  static void make_ready(const model::Creek& creek, ReadyPlace& ready);
  static void make_ready(const model::Pond& pond, ReadyPlace& ready);
  static void make_ready(const model::Trough& trough, ReadyPlace& ready);
  [[nodiscard]] static double value(const Course& course, const Moment& moment);
  [[nodiscard]] static std::optional<double> value(const std::optional<Course>& course,
                                                   const Moment& moment);
  [[nodiscard]] static double drunk_m3(const std::vector<Drinkers>& herd, const Moment& moment);
  [[nodiscard]] static PlaceDay day_of(const ReadyPlace& place, const Moment& moment);

  FarmWeather weather_;
  Course water_C_;
  std::vector<ReadyPlace> places_;
};

/// The values of a farm on one day, for who needs no more than a day or two (see `FarmDays`).
[[nodiscard]] DayValues day_values(const model::Farm& farm, model::Date date);

/// What was taken for granted between two dates: months filled from their neighbours, evaporation
/// by which method, weather that no day or month tells of.
[[nodiscard]] std::vector<SeasonNote> day_value_notes(const model::Farm& farm,
                                                      model::Date from,
                                                      model::Date to);

/// Share (0 to 1) of a trough's daily need that falls between two moments of a day [s since
/// midnight, from <= to <= 86 400]: its clock ranges; else its `within`, spread around the day's
/// middle; else the whole day. Ranges run past midnight where they end before they begin, and hours
/// named twice count once. The shares of a day add up to 1.
[[nodiscard]] double drinking_share(const model::Trough& trough, double from_s, double to_s);

/// The same of a place; where no stock drink the whole day counts.
[[nodiscard]] double drinking_share(const model::Place& place, double from_s, double to_s);

/// Hours of the day in which a trough's stock drink: above 0, at most 24.
[[nodiscard]] double drinking_hours(const model::Trough& trough);
/// The same of a place; where no stock drink 24.
[[nodiscard]] double drinking_hours(const model::Place& place);

/// Share of the time between two moments of one day [s after midnight, from < to <= 86 400] in
/// which a pump runs, 0 to 1: its clock ranges; else its hours a day, half of them before noon, as
/// the sun stands; else always.
[[nodiscard]] double running_share(const model::Pump& pump, double from_s, double to_s);

/// Depth of water [m] that a pond loses through its bed in a day; nothing where nothing is said.
[[nodiscard]] double seepage_a_day_m(const model::Seepage& seepage);

}  // namespace leat::solver
