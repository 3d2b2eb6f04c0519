// What a season adds up: the water of every step, put down by trough and month, tank, pond and day.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/season_answer.h"
#include "solver/season/season_steps.h"

namespace leat::solver {

/// When a step lies: days of the calendar and seconds of its (first) day.
struct StepTime {
  model::Date day;
  double from_s = 0.0;
  double seconds = 0.0;
};

/// What sky, ground and stock do to a pond in one step [m3]; the last three as far as water is
/// there.
struct PondShare {
  double rain_m3 = 0.0;
  double runoff_m3 = 0.0;
  double evaporation_m3 = 0.0;
  double seepage_m3 = 0.0;
  double stock_m3 = 0.0;

  [[nodiscard]] double wanted_m3() const { return evaporation_m3 + seepage_m3 + stock_m3; }
};

/// What was wanted during a step, by place: the volume, and the rate while stock drink.
struct StepNeeds {
  std::vector<double> need_m3;         // troughs, outlets with a wish
  std::vector<double> need_rate_m3_s;  // of the day, in its drinking hours
  std::vector<PondShare> ponds;
  std::vector<std::optional<double>> spare_m3_s;  // what may be taken from a creek
};

/// A creek from which more was taken than may be, at its worst.
struct SpareExceeded {
  double taken_m3_s = 0.0;
  double spare_m3_s = 0.0;
  model::Date on;
};

/// A trough at its driest moment of a month: what is needed to say why.
struct DriestMoment {
  double short_m3_s = 0.0;  // unmet rate; 0: never short
  model::Date day;
  double wanted_m3_s = 0.0;
  std::vector<double> wanted_by_place_m3_s;
  std::vector<double> levels_m;
  std::size_t stopped = 0;  // lines that had stopped by then
};

class WaterAccount {
 public:
  WaterAccount(const model::Farm& farm, const FarmStores& stores, double step_s, double stored_m3);

  /// Puts down a step. `steps` stands at its end.
  void put(const StepTime& time,
           const StepNeeds& needs,
           const StepWishes& wishes,
           const StepWater& water,
           const SeasonSteps& steps);

  /// Levels at a midnight.
  void put_levels(model::Date day, const std::vector<double>& levels_m);

  /// Moves what was put down into the answer (all but reasons, flags and first_short).
  void close(double stored_m3, SeasonAnswer& answer);

  /// By trough of the answer, by month of it.
  [[nodiscard]] const std::vector<std::vector<DriestMoment>>& driest() const { return driest_; }
  /// Water that every spring yielded in a month of the answer [m3], by place; and what was wanted.
  struct MonthSum {
    int year = 0;
    model::Month month = model::Month::Jan;
    double days = 0.0;
    std::vector<double> yield_m3;
    std::vector<double> need_m3;
    std::vector<double> drawn_m3;  // from a tank, by pipes
    std::vector<double> pipe_m3;   // through each pipe of the farm, from its start to its end
  };
  [[nodiscard]] const std::vector<MonthSum>& months() const { return months_; }
  /// By place: over brims and past floats [m3].
  [[nodiscard]] const std::vector<double>& spilled_m3() const { return spilled_m3_; }
  /// By place, creeks only.
  [[nodiscard]] const std::vector<std::optional<SpareExceeded>>& exceeded() const {
    return exceeded_;
  }

 private:
  struct Spell {
    double running_s = 0.0;  // of the spell that goes on
    double waiting_s = 0.0;  // time since, in which nothing was wanted
    double longest_s = 0.0;
    double day_need_m3 = 0.0;
    double day_unmet_m3 = 0.0;
    model::Date day;
  };
  struct Hours {
    std::array<double, 24> need_m3{};
    std::array<double, 24> got_m3{};
  };

  MonthSum& month_at(model::Date day);
  void put_lifters(const std::vector<LifterWater>& lifters);
  void put_exceeded(std::size_t place,
                    const StepTime& time,
                    std::optional<double> spare_m3_s,
                    double taken_m3_s);
  void put_place(std::size_t index,
                 const StepTime& time,
                 const PlaceWater& water,
                 const model::Place& today,
                 MonthSum& month);
  void put_pond(PondSeason& pond, const PlaceWater& water, const PondShare& day);
  void put_trough(
      std::size_t trough, const StepTime& time, double need_m3, double rate_m3_s, double got_m3);
  void put_hours(Hours& hours, const StepTime& time, double need_m3, double got_m3) const;
  void see_driest(std::size_t trough,
                  const StepTime& time,
                  double need_m3,
                  double got_m3,
                  const StepWishes& wishes,
                  const StepNeeds& needs,
                  const SeasonSteps& steps);
  void end_day(std::size_t trough);

  const model::Farm& farm_;
  const FarmStores& stores_;
  double stored_at_start_m3_ = 0.0;
  WaterBalance balance_;
  std::vector<TroughSeason> troughs_;
  std::vector<bool> tells_hours_;
  std::vector<std::vector<Hours>> hours_;  // by trough and month
  std::vector<Spell> spells_;
  std::vector<std::vector<DriestMoment>> driest_;
  std::vector<TankSeason> tanks_;
  std::vector<PondSeason> ponds_;
  std::vector<LifterSeason> lifters_;
  std::vector<MonthSum> months_;
  std::vector<double> spilled_m3_;
  std::vector<std::optional<SpareExceeded>> exceeded_;
};

}  // namespace leat::solver
