#include "solver/season/season.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>
#include <vector>

#include "model/keys/size_choice.h"
#include "model/quantity/conversion.h"
#include "solver/day/day_values.h"
#include "solver/season/first_short.h"
#include "solver/season/season_clock.h"
#include "solver/season/season_findings.h"
#include "solver/season/season_steps.h"
#include "solver/season/water_account.h"

namespace leat::solver {

namespace {

class SeasonStudy {
 public:
  SeasonStudy(const model::Farm& farm, const SeasonOptions& options, const Progress& progress)
      : farm_(farm), options_(options), progress_(progress), days_(farm) {
    answer_.step_s = options.step_s;
    answer_.from = options.from;
    answer_.to = options.to;
  }

  SeasonAnswer study() {
    check_options();
    if (answer_.problems.empty()) {
      run();
    }
    return std::move(answer_);
  }

 private:
  void check_options() {
    take_problem(step_problem(options_.step_s));
    take_problem(dates_problem(answer_.from, answer_.to));
    if (options_.until_dry) {
      take_problem(spring_problem(farm_, *options_.until_dry));
    }
    for (model::Diagnostic& problem : model::problems_of_sizes_to_choose(farm_)) {
      take_problem(std::move(problem));
    }
  }

  void take_problem(std::optional<SeasonProblem> problem) {
    if (problem) {
      answer_.problems.push_back(*std::move(problem));
    }
  }

  void run() {
    std::vector<StoreNote> store_notes;
    stores_ = FarmStores(farm_, answer_.from, store_notes);
    std::move(store_notes.begin(), store_notes.end(), std::back_inserter(answer_.notes));
    std::vector<SeasonNote> day_notes = day_value_notes(farm_, answer_.from, answer_.to);
    std::move(day_notes.begin(), day_notes.end(), std::back_inserter(answer_.notes));
    SeasonSteps steps(farm_, stores_);
    WaterAccount account(farm_, stores_, options_.step_s, steps.stored_m3());
    wishes_.taken_m3_s.assign(farm_.places.size(), 0.0);
    wishes_.inflow_m3_s.assign(farm_.places.size(), 0.0);
    wishes_.pump_share.assign(farm_.pumps.size(), 1.0);
    needs_.need_m3.assign(farm_.places.size(), 0.0);
    needs_.need_rate_m3_s.assign(farm_.places.size(), 0.0);
    needs_.ponds.assign(farm_.places.size(), {});
    needs_.spare_m3_s.assign(farm_.places.size(), std::nullopt);
    water_.places.assign(farm_.places.size(), {});
    note_pump_hours();
    const int first = model::day_number(answer_.from);
    const int last = model::day_number(answer_.to);
    account.put_levels(answer_.from, steps.levels_m());
    for (int day = first; day <= last;) {
      const StepDays stretch = days_from(model::date_of_day(day), answer_.to, options_.step_s);
      if (!run_days(stretch, steps, account)) {
        return;
      }
      day += stretch.days;
      const double share = static_cast<double>(day - first) / (last - first + 1);
      if (progress_ && !progress_(share)) {
        answer_.problems.emplace_back(SeasonStopped{});
        return;
      }
    }
    answer_.iterations = steps.iterations();
    answer_.converged = true;
    account.close(steps.stored_m3(), answer_);
    find_season_findings({farm_, stores_, account, steps.stopped(), air_entries_}, answer_);
    if (options_.until_dry) {
      find_first_short(farm_, options_, answer_);
    }
  }

  void note_pump_hours() {
    for (const model::Pump& pump : farm_.pumps) {
      if (pump.runs.empty() && pump.hours_a_day && in_hours(*pump.hours_a_day) < 24.0) {
        answer_.notes.emplace_back(PumpAroundNoon{pump.name});
      }
    }
  }

  bool run_days(const StepDays& stretch, SeasonSteps& steps, WaterAccount& account) {
    take_days(stretch);
    for (const model::FloatBreak& broken : farm_.breaks) {
      if (broken.on <= stretch.first) {
        steps.break_float(broken.place);
      }
    }
    steps.begin_day(mean_);
    const std::vector<double> levels_before = steps.levels_m();
    const double step_s = stretch.step_s();
    for (int part = 0; part < stretch.parts; ++part) {
      const StepTime time{stretch.first, part * step_s, step_s};
      want(time, stretch, steps);
      water_.clear();
      if (!steps.advance(wishes_, step_s, water_)) {
        answer_.problems.emplace_back(NoBalance{time.day, time.from_s, steps.failure()});
        return false;
      }
      ++answer_.steps;
      const std::size_t known = answer_.broken.size();
      for (std::size_t i = known; i < steps.stopped().size(); ++i) {
        const StoppedLine& stopped = steps.stopped()[i];
        answer_.broken.push_back({stopped.line.spring,
                                  time.day,
                                  stopped.line.pipe,
                                  stopped.parted,
                                  stopped.line.high_pipe,
                                  stopped.line.high_at_m});
      }
      put_air_entries(time.day, steps);
      account.put(time, needs_, wishes_, water_, steps);
    }
    put_midnights(stretch, levels_before, steps.levels_m(), account);
    return true;
  }

  /// Of each tee the first day.
  void put_air_entries(model::Date on, const SeasonSteps& steps) {
    for (const DrawingTee& tee : steps.drawing()) {
      const bool is_known =
          std::any_of(air_entries_.begin(), air_entries_.end(), [&](const DatedAirEntry& other) {
            return other.entry.tee == tee.tee;
          });
      if (!is_known) {
        air_entries_.push_back({tee, on});
      }
    }
  }

  /// Levels at every midnight; within a step of several days on the straight line.
  void put_midnights(const StepDays& stretch,
                     const std::vector<double>& before,
                     const std::vector<double>& after,
                     WaterAccount& account) const {
    std::vector<double> levels = after;
    for (int day = 1; day <= stretch.days; ++day) {
      const model::Date on = model::date_of_day(model::day_number(stretch.first) + day);
      if (answer_.to < on) {
        continue;
      }
      const double share = static_cast<double>(day) / stretch.days;
      for (std::size_t i = 0; i < levels.size(); ++i) {
        levels[i] = before[i] + share * (after[i] - before[i]);
      }
      account.put_levels(on, levels);
    }
  }

  /// The values of a day, or the means of several.
  void take_days(const StepDays& stretch) {
    days_.read(stretch.first, mean_);
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      needs_.spare_m3_s[i] = mean_.places[i].spare_m3_s;
    }
    if (stretch.days == 1) {
      return;
    }
    for (int i = 1; i < stretch.days; ++i) {
      const DayValues more = days_.on(model::date_of_day(model::day_number(stretch.first) + i));
      mean_.water_C += more.water_C;
      for (std::size_t place = 0; place < mean_.places.size(); ++place) {
        add(mean_.places[place], more.places[place]);
      }
    }
    mean_.water_C /= stretch.days;
    for (PlaceDay& place : mean_.places) {
      divide(place, stretch.days);
    }
  }

  static void add(PlaceDay& sum, const PlaceDay& more) {
    const auto plus = [](std::optional<double>& to, const std::optional<double>& value) {
      if (to || value) {
        to = to.value_or(0.0) + value.value_or(0.0);
      }
    };
    plus(sum.yield_m3_s, more.yield_m3_s);
    plus(sum.surface_m, more.surface_m);
    plus(sum.need_m3, more.need_m3);
    plus(sum.wished_m3_s, more.wished_m3_s);
    if (sum.pond && more.pond) {
      sum.pond->rain_m += more.pond->rain_m;
      sum.pond->evaporation_m += more.pond->evaporation_m;
      sum.pond->seepage_m += more.pond->seepage_m;
      sum.pond->runoff_m3 += more.pond->runoff_m3;
      sum.pond->stock_m3 += more.pond->stock_m3;
    }
  }

  static void divide(PlaceDay& place, double days) {
    for (std::optional<double>* value :
         {&place.yield_m3_s, &place.surface_m, &place.need_m3, &place.wished_m3_s}) {
      if (*value) {
        **value /= days;
      }
    }
    if (place.pond) {
      place.pond->rain_m /= days;
      place.pond->evaporation_m /= days;
      place.pond->seepage_m /= days;
      place.pond->runoff_m3 /= days;
      place.pond->stock_m3 /= days;
    }
  }

  /// What is wanted in a step. Rain, sun and ground act on a pond's area at the step's beginning.
  void want(const StepTime& time, const StepDays& stretch, const SeasonSteps& steps) {
    for (std::size_t i = 0; i < farm_.pumps.size(); ++i) {
      const bool is_whole_days = stretch.parts == 1;
      wishes_.pump_share[i] =
          running_share(farm_.pumps[i],
                        is_whole_days ? 0.0 : time.from_s,
                        is_whole_days ? seconds_per_day : time.from_s + time.seconds);
    }
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      const PlaceDay& day = mean_.places[i];
      if (model::is_trough(farm_.places[i])) {
        const double a_day_m3 = day.need_m3.value_or(0.0);
        const double share =
            stretch.parts == 1
                ? stretch.days
                : drinking_share(farm_.places[i], time.from_s, time.from_s + time.seconds);
        needs_.need_m3[i] = a_day_m3 * share;
        needs_.need_rate_m3_s[i] = a_day_m3 / (3600.0 * drinking_hours(farm_.places[i]));
        wishes_.taken_m3_s[i] = needs_.need_m3[i] / time.seconds;
      } else if (day.wished_m3_s) {
        needs_.need_m3[i] = *day.wished_m3_s * time.seconds;
        needs_.need_rate_m3_s[i] = *day.wished_m3_s;
      }
      const std::size_t store = stores_.of_place(i);
      if (!day.pond || store == no_index) {
        continue;
      }
      const double days = time.seconds / seconds_per_day;
      const double area_m2 = stores_.laws()[store].at(steps.levels_m()[store]).area_m2;
      PondShare& pond = needs_.ponds[i];
      pond.rain_m3 = days * area_m2 * day.pond->rain_m;
      pond.runoff_m3 = days * day.pond->runoff_m3;
      pond.evaporation_m3 = days * area_m2 * day.pond->evaporation_m;
      pond.seepage_m3 = days * area_m2 * day.pond->seepage_m;
      pond.stock_m3 = days * day.pond->stock_m3;
      wishes_.taken_m3_s[i] = pond.wanted_m3() / time.seconds;
      wishes_.inflow_m3_s[i] = (pond.rain_m3 + pond.runoff_m3) / time.seconds;
    }
  }

  const model::Farm& farm_;
  const SeasonOptions& options_;
  const Progress& progress_;
  SeasonAnswer answer_;
  FarmStores stores_;
  FarmDays days_;
  DayValues mean_;
  StepWishes wishes_;
  StepNeeds needs_;
  StepWater water_;
  std::vector<DatedAirEntry> air_entries_;
};

}  // namespace

SeasonAnswer run_season(const model::Farm& farm,
                        const SeasonOptions& options,
                        const Progress& progress) {
  return SeasonStudy(farm, options, progress).study();
}

}  // namespace leat::solver
