// How much a trough or tank must hold, by the published rules and by running its month.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"

namespace leat::solver {

/// One rule applied to one place.
struct StoreRule {
  std::size_t place = 0;
  std::string rule;                 // one sentence: what it is for
  std::optional<double> volume_m3;  // none: no volume does it
  std::string source;               // who says so
  bool is_least = false;            // asks for most in usual times: the least the place should hold
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
                                                 std::vector<std::string>& notes);

/// Volume that a day's amount, drunk evenly in `hours`, needs beside a flow that never stops [m3].
[[nodiscard]] double volume_for_hours_m3(double day_m3, double hours, double inflow_m3_s);

/// Volume by the time in which the flow brings a day's amount [m3] (USDA Livestock Watering Data
/// Sheet): within an hour 2 gal a head (a quarter day's where heads are not known), within four
/// hours a quarter of the day, longer a day.
[[nodiscard]] double volume_by_refill_m3(double day_m3, double heads, double inflow_m3_s);

}  // namespace leat::solver
