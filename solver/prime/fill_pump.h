// What filling a siphon asks of the pump that does it and of the pipe it fills.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/network/network_of_farm.h"
#include "solver/prime/prime_course.h"

namespace leat::solver {

/// What pumping the line full from its lower end asks of the pump and the pipe.
struct FillPump {
  double needed_Pa = 0.0;  // gauge at the line's lower end, to reach the summit at the filling rate
  double most_Pa = 0.0;    // shut-off pressure beyond which a pipe of the line is over its rating
  bool has_limit = false;  // whether any pipe of the line carries a rating
  std::size_t limit_pipe = 0;
  double limit_at_m = 0.0;
  std::optional<double> reaches_m;  // level at which a pump of the given shut-off pressure stops
};

[[nodiscard]] FillPump fill_pump_of(const model::Farm& farm,
                                    const PrimeCourse& course,
                                    const Surroundings& around,
                                    double fill_m3_s,
                                    std::optional<double> shut_off_Pa);

/// "over-rating" for each pipe of the line that the full line with both ends shut puts more on than
/// it may bear. A line filled to its summit stands under the summit's head, which is above the
/// source that the static case of `solve` reckons from.
[[nodiscard]] std::vector<Finding> standing_findings(const model::Farm& farm,
                                                     const PrimeCourse& course,
                                                     const Surroundings& around);

/// "over-rating" where the pump's shut-off pressure is more than the line may bear.
[[nodiscard]] std::optional<Finding> too_strong_pump(const model::Farm& farm,
                                                     const FillPump& pump,
                                                     std::optional<double> shut_off_Pa);

}  // namespace leat::solver
