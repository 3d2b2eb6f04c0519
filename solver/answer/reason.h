// Why a trough or outlet goes short: a value that says which of the causes holds, and its figures.
// Sentences: render/words/why_short.h.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace leat::solver {

/// Where the water of a place would come out: at a trough's float or at an open end.
enum class WaterEnd { Float, OpenEnd };

struct NoPipe {};      // no pipe leads to the place
struct NoOpenWay {};   // no open way joins it to water
struct NoHeadLeft {};  // nothing of the fall is left for it

/// Every source that feeds the place is a spring that gives all it has.
struct SpringsShort {
  std::vector<std::string> springs;  // at least one
  double yield_m3_s = 0.0;           // of all together; 0: they yield nothing
};

/// The end stands above the highest water that can reach it.
struct TooHigh {
  WaterEnd end = WaterEnd::Float;
  double above_m = 0.0;
};

/// The mouth of a pipe stands above the water it should take in.
struct DryMouth {
  std::string pipe;
  std::string water;
  double above_m = 0.0;
};

struct ShutValve {
  std::string pipe;
};

/// A one-way that points away from the place.
struct OneWayAgainst {
  std::string pipe;
};

/// A siphon has broken: a spring drew down to its intake.
struct BrokenSiphon {
  struct Cause {
    std::string spring;
    std::string high_pipe;  // where the high point is
    double below_m = 0.0;   // the intake below it
  };
  std::string pipe;
  std::optional<Cause> cause;  // where it is known
};

/// The water of a line parted at its summit earlier in the season; the line runs no more.
struct SummitParted {
  std::string pipe;
};

/// A summit so high above the water before it that nothing comes over.
struct DrySummit {
  std::string pipe;
  double above_m = 0.0;
  bool is_vented = false;  // a vent stands there: nothing lifts the water
};

/// The fall there is does not open the checks of a pipe.
struct CheckStaysShut {
  std::string pipe;
  double opening_head_m = 0.0;  // of all its checks
};

/// The end stands above what the running water reaches.
struct AboveRunningWater {
  WaterEnd end = WaterEnd::Float;
  double above_m = 0.0;
  std::string at;                       // the place next upstream
  bool at_tee = false;                  // the grade line at a tee; else the water of a place
  std::optional<SpringsShort> springs;  // where springs short bring that about
};

/// What on the way takes head from the water.
struct FloatSeat {
  double bore_m = 0.0;
};
struct FloatValve {};  // its seat is not told
struct OpenEnd {};
struct PartOpenValve {
  std::string pipe;
  double open = 1.0;  // share, above 0, below 1
};
struct FittingsAndEnds {
  std::string pipe;
};
struct PipeFriction {
  std::string pipe;
  double length_m = 0.0;
  std::string size;  // as the catalogue names it
};
struct PressureRegulator {
  std::string pipe;
};
using HeadTaker = std::variant<FloatSeat,
                               FloatValve,
                               OpenEnd,
                               PartOpenValve,
                               FittingsAndEnds,
                               PipeFriction,
                               PressureRegulator>;

/// Water runs, but one thing on the way takes more of the fall than any other.
struct LargestLoss {
  HeadTaker taker;
  double head_m = 0.0;
  double fall_m = 0.0;  // all there is
};

/// Why a place gets less than its need at one moment of steady flow.
using Reason = std::variant<NoPipe,
                            NoOpenWay,
                            NoHeadLeft,
                            SpringsShort,
                            TooHigh,
                            DryMouth,
                            ShutValve,
                            OneWayAgainst,
                            BrokenSiphon,
                            SummitParted,
                            DrySummit,
                            CheckStaysShut,
                            AboveRunningWater,
                            LargestLoss>;

/// Springs alone feed what is joined to a place, and give less in a month than is wanted there.
struct SupplyShort {
  std::vector<std::string> springs;  // at least one
  double given_m3_day = 0.0;         // 0: they give nothing
  double wanted_m3_day = 0.0;
};

/// Why a month of a season is short. Where nothing is set, water came more slowly than was drunk.
struct SeasonReason {
  std::optional<SupplyShort> supply;
  std::optional<std::string> empty_tank;  // a tank that stands at its lowest mouth
  std::optional<Reason> moment;           // of steady flow at the month's driest moment
};

}  // namespace leat::solver
