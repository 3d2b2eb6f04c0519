// Hours of the day, as several sections of the file give them.
#pragma once

#include "model/keys/map_reader.h"

namespace leat::model {

/// When something runs in a day: hours of the clock, or so many hours.
struct RunTimes {
  std::vector<ClockRange> ranges;
  std::optional<Duration> hours_a_day;
};

/// Hours of the day: "6:00-9:00", "22:00-4:00", or a list of such; where `hours_too`, also
/// "4 h/day", above 0 and at most 24 h (code not-clock-hours).
enum class HoursToo { No, Yes };
[[nodiscard]] RunTimes read_run_times(const YamlNode& node,
                                      std::string_view what,
                                      HoursToo hours_too,
                                      ProblemList& problems);

}  // namespace leat::model
