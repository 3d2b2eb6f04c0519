// Room: what a study answers: SI figures, enums, variants, no sentence.
//
// The answer to "what does the water do now": plain values, in SI, beside the farm's own order.
#pragma once

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/answer/finding.h"
#include "solver/answer/load_case.h"
#include "solver/answer/steady_note.h"
#include "solver/nodal/solve_report.h"

namespace leat::solver {

/// Shares of what is needed: met below the first is short, below the second dry.
inline constexpr double met_limit = 0.995;
inline constexpr double dry_limit = 0.005;
/// A share met in whole per cent: rounded down below all, so that what falls short never reads 100.
[[nodiscard]] inline double percent_met(double share) {
  return share < met_limit ? std::floor(share * 100.0) : 100.0;
}
/// Below this a flow is nothing: the water is still.
inline constexpr double still_flow_m3_s = 1e-9;
/// A flow [m3/s] too small to be one is nothing.
[[nodiscard]] inline double unless_still(double flow_m3_s) {
  return std::abs(flow_m3_s) < still_flow_m3_s ? 0.0 : flow_m3_s;
}

/// The first that applies (render/OUTPUT.md).
enum class PlaceState {
  BelowVapour,
  NearVapour,
  Breaks,
  Dry,
  Starved,
  DrawnDown,
  Suction,
  Spilling,
  Ok
};
enum class PipeState { Parted, NearVapour, OverRating, Backwards, PartFull, Suction, Still, Ok };

/// What one place sees. Index in `SteadyAnswer::places` is the index in `Farm::places`.
struct PlaceAnswer {
  double elevation_m = 0.0;
  std::optional<double> head_m;
  std::optional<double> level_m;
  std::optional<double> pressure_Pa;  // gauge; empty for open water
  double delivered_m3_s = 0.0;
  std::optional<double> need_m3_s;
  std::optional<double> met;
  std::optional<double> spill_m3_s;
  std::optional<double> has_to_give_m3_s;  // a spring's yield, what may be taken from a creek
  /// Of a tank that gives more than it is fed: what stands above the lowest mouth of its pipes,
  /// none where its area is not known; how long that lasts, 0 where it cannot.
  std::optional<double> stands_m3;
  std::optional<double> lasts_s;
  PlaceState state = PlaceState::Ok;
};

/// One vertex of a pipe's path that turns downward.
struct SummitAnswer {
  double at_m = 0.0;
  double elevation_m = 0.0;
  std::optional<double> absolute_head_m;
  std::optional<double> margin_m;  // absolute head less vapour head
  bool parted = false;
};

/// What one pipe sees. Index in `SteadyAnswer::pipes` is the index in `Farm::pipes`.
struct PipeAnswer {
  double flow_m3_s = 0.0;  // positive from `from` to `to`
  double velocity_m_s = 0.0;
  double reynolds = 0.0;
  std::optional<double> head_loss_m;
  std::optional<double> lowest_pressure_Pa;  // gauge
  std::optional<double> lowest_at_m;
  std::optional<double> highest_pressure_Pa;
  double part_full_m = 0.0;            // length of pipe that runs part full
  std::optional<SummitAnswer> summit;  // the one with least margin
  std::vector<SummitAnswer> summits;   // first to last
  PipeState state = PipeState::Ok;
};

/// What one pump or ram does. All pumps of the farm come first, then all rams, in their order.
struct LifterAnswer {
  std::string name;
  bool is_ram = false;
  double flow_m3_s = 0.0;         // what it lifts
  double wasted_m3_s = 0.0;       // of a ram: what drives it and runs off
  std::optional<double> head_m;   // of a pump: the head it gives; of a ram: its lift above itself
  std::optional<double> fall_m;   // of a ram: from its source's level down to itself
  std::optional<double> power_W;  // drawn by a pump whose efficiency is known
  double running_s = 86400.0;     // a day: all of it where the file does not say
  bool beyond_curve = false;      // a pump gives more than the last flow its maker states
  bool before_curve = false;      // ... or less than the first
  bool shut_off_short = false;    // a pump runs, but its head does not reach: nothing is lifted
  bool set_by_hand = false;       // a ram takes what its valve is set to, not what the pipe brings
};

struct SteadyOptions {
  LoadCase load_case = LoadCase::Needs;
  std::optional<std::string> broken;  // trough whose float hangs open
  std::optional<model::Month> month;  // the driest month when absent
};

struct SteadyAnswer {
  LoadCase load_case = LoadCase::Needs;
  std::optional<std::string> broken;
  std::optional<model::Month> month;
  bool month_chosen = false;  // the driest month was taken, as none was asked for
  bool converged = false;
  int iterations = 0;
  double air_pressure_Pa = 0.0;
  double vapour_pressure_Pa = 0.0;
  double density_kg_m3 = 0.0;
  std::vector<PlaceAnswer> places;  // empty when not converged
  std::vector<PipeAnswer> pipes;
  std::vector<LifterAnswer> lifters;        // pumps, then rams
  std::vector<std::size_t> opened_tees;     // places found to draw air in the case asked for
  std::vector<std::size_t> broken_springs;  // places whose siphons broke in it
  std::vector<Finding> flags;               // worst first, of all cases
  std::vector<SteadyNote> notes;            // rounds of opened tees, the month taken ...
  std::vector<model::Diagnostic> problems;  // why there is no answer
  nodal::SolveReport report;                // iteration table of the last solve
};

[[nodiscard]] const char* word_of(PlaceState state);  // "below vapour", "near vapour", ...
[[nodiscard]] const char* word_of(PipeState state);

}  // namespace leat::solver
