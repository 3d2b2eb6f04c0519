// The first part of a priming study: which line, solved how, and what is known of it. Nothing is
// judged here.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/answer/steady_answer.h"
#include "solver/findings/trapped_air.h"
#include "solver/prime/prime.h"
#include "solver/prime/prime_course.h"
#include "solver/prime/prime_problem.h"

namespace leat::solver {

struct LineReading {
  std::vector<model::Diagnostic> problems;  // of the solution
  std::optional<PrimeProblem> problem;      // of the line asked for
  SteadyAnswer answer;                      // the farm solved, with all its flags
  PrimeCourse course;
  AirLock lock;
  std::vector<FallingLeg> air;             // falling legs of the line while it runs
  std::vector<std::size_t> opened_valves;  // pipes whose valve the file has shut
  double inflow_m3_s = 0.0;                // what runs into the line with every float wide open
  std::optional<double> flow_m3_s;         // at the line's end, every float wide open
  std::optional<double> flow_without_foot_valve_m3_s;  // none without a foot valve

  [[nodiscard]] bool is_read() const { return problems.empty() && !problem; }
};

/// Finds and solves the line (see priming_plan). What follows the problems is empty where there are
/// any.
[[nodiscard]] LineReading read_line(const model::Farm& farm, const PrimeOptions& options);

}  // namespace leat::solver
