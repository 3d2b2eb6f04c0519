// How a siphon is primed: what is shut, where the water is poured in, how much, what comes next. Or
// why it should not be, or need not be.
// Room: one line is read, judged and planned, in that order; a step is a value.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/answer/steady_answer.h"
#include "solver/findings/trapped_air.h"
#include "solver/prime/fill_pump.h"
#include "solver/prime/filling_rate.h"
#include "solver/prime/line_ends.h"
#include "solver/prime/line_names.h"
#include "solver/prime/prime_course.h"
#include "solver/prime/prime_problem.h"
#include "solver/prime/prime_refusal.h"
#include "solver/prime/prime_remark.h"
#include "solver/prime/prime_step.h"

namespace leat::solver {

/// So much more water than the pipe holds should be ready: spills, air that comes out late.
inline constexpr double water_to_have_ready = 1.2;

struct PrimeOptions {
  std::optional<std::string> pipe;    // any pipe of the line; the worst line when absent
  std::optional<double> fill_m3_s;    // rate at which water can be poured or pumped in
  std::optional<double> shut_off_Pa;  // the most pressure the fill pump can give
  std::optional<model::Month> month;  // the driest month when absent
};

enum class PrimeNeed {
  FillsItself,  // nothing of the line stands above the water it starts from
  ByHand,       // a siphon that can be primed and will hold
  CannotHold    // it would part, gas up, break or not run: not to be primed as it is
};

struct PrimePlan {
  std::vector<model::Diagnostic> problems;  // why the farm has no solution
  std::optional<PrimeProblem> problem;      // why the line asked for has no plan
  PrimeNeed need = PrimeNeed::FillsItself;
  std::optional<PrimeRefusal> refusal;     // why it cannot hold
  std::optional<double> margin_m;          // left at its worst summit before the water would part
  std::vector<std::string> opened_valves;  // pipes whose valve the file has shut
  PrimeCourse course;
  priming::LineNames names;
  InletClosing inlet;
  OutletClosing outlet;
  FillingRate rate;
  double inflow_m3_s = 0.0;          // what runs into the line with every float wide open
  std::optional<FillPump> pump;      // none where the line fills itself
  std::vector<PrimeStep> steps;      // empty where it cannot hold
  std::vector<PrimeRemark> remarks;  // foot valve, pump, part-full reaches, how to do otherwise
  std::optional<double> flow_m3_s;   // at the line's end, every float wide open
  std::optional<double> flow_without_foot_valve_m3_s;  // none without a foot valve
  std::vector<FallingLeg> air;                         // falling legs of the line while it runs
  AirLock lock;
  SteadyAnswer answer;  // the farm solved; its flags are the line's own

  /// Whether there is a plan at all; else all else but the problems is empty.
  [[nodiscard]] bool is_made() const { return problems.empty() && !problem; }
};

/// Plans the priming of the line that holds `options.pipe`, else of the line that climbs highest
/// above its water, else (none does) of the longest line. A siphon is judged with every float wide
/// open (that draws hardest), a line that fills by itself as `solve` judges it.
[[nodiscard]] PrimePlan priming_plan(const model::Farm& farm, const PrimeOptions& options);

}  // namespace leat::solver
