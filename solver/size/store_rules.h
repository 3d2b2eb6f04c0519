// How much a trough or tank must hold, by the published rules and by running its month.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/size/size_note.h"

namespace leat::solver {

/// What a rule asks a store to carry.
enum class StorePurpose {
  ItsHours,           // a trough's hours, at the flow it gets
  HerdAtOnce,         // a herd that comes at once
  DaysWater,          // the time to bring a day's water
  Month,              // its month by the hour, begun full
  FailingSource,      // a source that may fail for a day
  AllHours,           // of a tank: the hours in which all is drunk
  DaysWithoutSource,  // `days` in which nothing comes, all that is drunk a day times them
  LineShut,           // a trough's own line shut for `days`
  SourcesDry          // every spring and creek dry for `days`
};

/// Who says so: arithmetic at the flow of the month, a season run hour by hour, the USDA Livestock
/// Watering Data Sheet, Ohio State University ANR-12 (2003), common practice.
enum class StoreSource { Balance, Season, Usda, Ohio, Practice };

/// One rule applied to one place.
struct StoreRule {
  std::size_t place = 0;
  StorePurpose purpose = StorePurpose::ItsHours;
  int days = 0;                     // of DaysWithoutSource, LineShut, SourcesDry
  std::optional<double> volume_m3;  // none: no volume does it
  StoreSource source = StoreSource::Balance;
  bool is_least = false;  // asks for most in usual times: the least the place should hold
  // Of the rule that is_least: what the file says the place holds, and whether that is less.
  std::optional<double> held_m3;
  bool is_too_small = false;
  /// The month's run asks for more than twice what any rule for a day does, outages left aside: the
  /// store stands in for water that does not come.
  bool stands_in_for_water = false;
};

/// For every trough with a daily amount: what carries the herd through its hours at the flow it
/// gets, what a trough of its refill time should hold, what a herd that comes at once drinks. For
/// every tank: the hours' balance, and 3 and 7 days without a source, of all that is drunk below
/// it. Beside each balance what a season finds (`StoreSeason`), and what a day (a trough) and 3
/// days (a tank) without inflow ask for, unless the farm is too large to be run so often (`notes`
/// says so). `answer` is of the farm in `month`.
[[nodiscard]] std::vector<StoreRule> store_rules(const model::Farm& farm,
                                                 const SteadyAnswer& answer,
                                                 std::optional<model::Month> month,
                                                 std::vector<SizeNote>& notes);

/// Volume that a day's amount, drunk evenly in `hours`, needs beside a flow that never stops [m3].
[[nodiscard]] double volume_for_hours_m3(double day_m3, double hours, double inflow_m3_s);

/// Volume by the time in which the flow brings a day's amount [m3] (USDA Livestock Watering Data
/// Sheet): within an hour 2 gal a head (a quarter day's where heads are not known), within four
/// hours a quarter of the day, longer a day.
[[nodiscard]] double volume_by_refill_m3(double day_m3, double heads, double inflow_m3_s);

}  // namespace leat::solver
