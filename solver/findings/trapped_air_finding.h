// The findings about air that gathers in running pipes.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"

namespace leat::solver {

/// "air-stays" (caution) or "air-doubtful" (note) for each pipe with a falling leg that the running
/// water does not surely sweep, its worst leg named; in the order of the file. Where floats hold
/// the flow of the case `needs` back to a day's average, a note says so in place of the caution.
[[nodiscard]] std::vector<Finding> air_findings(const model::Farm& farm,
                                                const SteadyAnswer& answer);

}  // namespace leat::solver
