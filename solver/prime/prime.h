// How a siphon is primed: what is shut, where the water is poured in, how much, what comes next. Or
// why it should not be, or need not be.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/answer/steady_answer.h"
#include "solver/findings/trapped_air.h"
#include "solver/prime/fill_pump.h"
#include "solver/prime/prime_course.h"

namespace leat::solver {

/// A line is filled no faster than this, so that its air can leave (design, section 7) [m/s].
inline constexpr double fastest_filling_m_s = 0.3;
/// Poured in at the top, water leaves half the bore to the air that comes up past it; a long bubble
/// rises at 0.35 sqrt(g D) (from memory; the half is common practice, no source).
inline constexpr double rising_bubble = 0.35;
inline constexpr double share_for_air = 0.5;
/// So much more water than the pipe holds should be ready: spills, air that comes out late.
inline constexpr double water_to_have_ready = 1.2;

struct PrimeOptions {
  std::optional<std::string> pipe;    // any pipe of the line; the worst line when absent
  std::optional<double> fill_m3_s;    // rate at which water can be poured or pumped in
  std::optional<double> shut_off_Pa;  // the most pressure the fill pump can give
  std::optional<model::Month> month;  // the driest month when absent
  std::optional<model::UnitSystem> units;
};

enum class PrimeNeed {
  FillsItself,  // nothing of the line stands above the water it starts from
  ByHand,       // a siphon that can be primed and will hold
  CannotHold    // it would part, gas up, break or not run: not to be primed as it is
};

/// One step. `where` is a place or a pipe of the file, and `text` names it.
struct PrimeStep {
  /// What filling by pump does otherwise, or how the line is filled once more, refers to these.
  enum class Kind { Other, CarryWater, ShutLowerEnd, Pour };
  std::string where;
  std::string text;
  std::optional<double> volume_m3;  // poured in during it
  std::optional<double> time_s;     // it takes at least
  Kind kind = Kind::Other;
};

struct PrimePlan {
  std::vector<model::Diagnostic> problems;  // why there is no plan at all
  std::optional<model::Month> month;
  bool month_chosen = false;
  PrimeNeed need = PrimeNeed::FillsItself;
  std::string verdict;  // one or two sentences: why it holds, cannot hold or needs nothing ...
  std::optional<Finding> refused_for;  // ... that ends in this finding ...
  std::string verdict_end;             // ... and this
  PrimeCourse course;
  double fill_m3_s = 0.0;            // rate reckoned with, poured or running in by itself
  double fastest_fill_m3_s = 0.0;    // the most it may be
  double pump_m3_s = 0.0;            // rate of a fill pump, whose air leaves ahead of the water
  double inflow_m3_s = 0.0;          // what runs into the line with every float wide open
  double fill_s = 0.0;               // time the whole volume takes at that rate
  std::optional<FillPump> pump;      // none where the line fills itself
  std::vector<PrimeStep> steps;      // empty where it cannot hold
  std::vector<std::string> remarks;  // foot valve, pump, part-full reaches, how to do otherwise
  std::optional<double> flow_m3_s;   // at the line's end, every float wide open
  std::optional<double> flow_without_foot_valve_m3_s;  // none without a foot valve
  std::vector<FallingLeg> air;                         // falling legs of the line while it runs
  AirLock lock;
  SteadyAnswer answer;  // the farm solved; its flags are the line's own
};

/// Plans the priming of the line that holds `options.pipe`, else of the line that climbs highest
/// above its water, else (none does) of the longest line. A siphon is judged with every float wide
/// open (that draws hardest), a line that fills by itself as `solve` judges it.
[[nodiscard]] PrimePlan priming_plan(const model::Farm& farm, const PrimeOptions& options);

}  // namespace leat::solver
