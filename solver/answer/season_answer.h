// The answer to "what does a season do to every trough, tank and pond": plain values in SI, beside
// the farm's own order.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/date.h"
#include "solver/answer/reason.h"
#include "solver/answer/season_note.h"
#include "solver/answer/season_problem.h"
#include "solver/answer/steady_answer.h"

namespace leat::solver {

/// Where all the water of the season came from and went [m3]: in = out + stored + spilled + lost +
/// error.
struct WaterBalance {
  double in_m3 = 0.0;       // taken from springs and creeks, rain and runoff into ponds
  double out_m3 = 0.0;      // drunk, and delivered by outlets and free ends
  double stored_m3 = 0.0;   // change of what stands in tanks, troughs and ponds
  double spilled_m3 = 0.0;  // over brims and spillways, out of vents, past broken floats, from rams
  double lost_m3 = 0.0;     // evaporation and seepage
  double error_m3 = 0.0;    // what does not add up
  double moved_m3 = 0.0;    // in_m3 and what the stores gave: what the error is measured against
};

/// One month (or the part of it that lies in the season) at one trough or outlet with a need.
struct MonthAtTrough {
  int year = 1970;
  model::Month month = model::Month::Jan;
  double got_m3 = 0.0;  // drunk (a trough), delivered (an outlet)
  double need_m3 = 0.0;
  std::optional<double> met;           // got over need, at most 1; none without a need
  double dry_h = 0.0;                  // unmet volume over the need's rate, in hours
  std::optional<SeasonReason> reason;  // why it is short; none where met
};

/// One trough (or outlet with a wish) over the season. In the farm's order.
struct TroughSeason {
  std::size_t place = 0;
  std::optional<model::Date> first_dry;  // the first day whose met is below the starved limit
  double longest_dry_h = 0.0;            // the longest spell without enough
  std::vector<MonthAtTrough> months;
  /// Hour of the day (0 to 23) by month: share of that hour's need met, where hours can be told
  /// apart (step at most a quarter of the drinking hours). Empty otherwise. One row a month. An
  /// hour in which nothing is wanted counts as met (1).
  std::vector<std::vector<double>> met_by_hour;
};

struct DatedLevel {
  model::Date on;
  double level_m = 0.0;
};

/// A tank over the season.
struct TankSeason {
  std::size_t place = 0;
  double lowest_m = 0.0;  // level, on the datum
  model::Date lowest_on;
  std::optional<double> days_alone;  // how long, full, it carries what is drawn from it in the
                                     // driest month with nothing coming in; none: nothing is drawn
  double spilled_m3 = 0.0;
  bool ran_empty = false;          // it came down to its lowest mouth; without one, to its bottom
  std::vector<DatedLevel> levels;  // at midnight of every day, the first day's first
};

/// A pond whose shape is known over the season [m3, all positive].
struct PondSeason {
  std::size_t place = 0;
  std::optional<model::Date> filled_on;  // first day it stood at its spill level (or top)
  double lowest_m = 0.0;
  model::Date lowest_on;
  double fill_m3 = 0.0;  // by pipes, net
  double rain_m3 = 0.0;
  double runoff_m3 = 0.0;
  double evaporation_m3 = 0.0;
  double seepage_m3 = 0.0;
  double stock_m3 = 0.0;
  double spilled_m3 = 0.0;
  bool ran_empty = false;          // it came down to its lowest mouth; without one, to its bottom
  std::vector<DatedLevel> levels;  // at midnight of every day, the first day's first
};

/// A pump or ram over the season.
struct LifterSeason {
  std::string name;
  bool is_ram = false;
  double delivered_m3 = 0.0;
  double wasted_m3 = 0.0;            // of a ram
  std::optional<double> energy_kWh;  // of a pump whose efficiency is given
  double running_h = 0.0;
};

/// A siphon that broke, and stays broken until primed.
struct SiphonBroken {
  std::size_t spring = 0;  // place its pipe leaves
  model::Date on;
  std::size_t pipe = 0;       // the pipe shut from then on
  bool parted = false;        // it parted at a summit; else it drew air at its spring
  std::size_t high_pipe = 0;  // where the summit, or the high point beyond the spring, is ...
  double high_at_m = 0.0;     // ... and how far along that pipe
};

/// Which trough first goes short as one spring falls, in order of falling yield.
struct FirstShort {
  std::size_t place = 0;
  double yield_m3_s = 0.0;  // below it the trough gets less than its need
};

struct SeasonOptions {
  model::Date from{1970, 1, 1};  // both days are counted
  model::Date to{1970, 12, 31};
  double step_s = 3600.0;                // 60 s to a week
  std::optional<std::string> until_dry;  // spring whose yield is lowered until troughs go short
};

struct SeasonAnswer {
  model::Date from;
  model::Date to;
  double step_s = 3600.0;
  bool converged = false;
  std::size_t steps = 0;
  long iterations = 0;
  WaterBalance balance;
  std::vector<TroughSeason> troughs;
  std::vector<TankSeason> tanks;
  std::vector<PondSeason> ponds;
  std::vector<LifterSeason> lifters;
  std::vector<SiphonBroken> broken;
  std::vector<FirstShort> first_short;  // only with until_dry
  std::vector<Finding> flags;           // worst first
  std::vector<SeasonNote> notes;        // what was assumed
  std::vector<SeasonProblem> problems;  // why there is no answer
};

}  // namespace leat::solver
