// A farm carried from one moment of a season to the next: its stores, siphons and floats as they
// stand, and the water that one step moves.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "model/farm.h"
#include "solver/day_values.h"
#include "solver/farm_stores.h"
#include "solver/flow_state.h"
#include "solver/nodal/newton.h"
#include "solver/siphon_rounds.h"

namespace leat::solver {

/// What is asked of the farm during one step, by place of the farm [m3/s].
struct StepWishes {
  /// What stock want at a trough; what stock, sun and ground together take from a pond.
  std::vector<double> taken_m3_s;
  std::vector<double> inflow_m3_s;  // rain and runoff into a pond
};

/// The water of one step at one place [m3].
struct PlaceWater {
  double given_m3 = 0.0;    // a spring's or surface's to the pipes, less what runs back
  double taken_m3 = 0.0;    // drunk at a trough, let out at an outlet, taken from a pond
  double wasted_m3 = 0.0;   // past a float that hangs open
  double spilled_m3 = 0.0;  // over the brim
  double piped_m3 = 0.0;    // brought by pipes less taken by them
  double drawn_m3 = 0.0;    // taken by pipes alone
};

/// The water of one step.
struct StepWater {
  std::vector<PlaceWater> places;
  double vents_m3 = 0.0;  // over the tops of vents
  double rain_m3 = 0.0;   // rain and runoff into ponds

  void clear();
};

/// A line that stopped for good: it drew air at its spring, or parted at a summit.
struct StoppedLine {
  BrokenLine line;  // `spring` is the place the pipe leaves
  bool parted = false;
};

/// Carries a farm through time. Not copyable: the network looks into this object.
class SeasonSteps {
 public:
  /// `stores` must outlive this.
  SeasonSteps(const model::Farm& farm, const FarmStores& stores);
  SeasonSteps(const SeasonSteps&) = delete;
  SeasonSteps& operator=(const SeasonSteps&) = delete;

  /// The values of the coming days. Tees that drew air and stand full again are full.
  void begin_day(const DayValues& values);
  /// From now on that float hangs open.
  void break_float(std::size_t place);
  /// One step. What moved is added to `water`. False where no balance was found, however short the
  /// step; `failure` then says why.
  [[nodiscard]] bool advance(const StepWishes& wishes, double seconds, StepWater& water);

  [[nodiscard]] const FarmStores& stores() const { return stores_; }
  /// By index of the stores' laws.
  [[nodiscard]] const std::vector<double>& levels_m() const { return level_m_; }
  [[nodiscard]] double stored_m3() const;
  [[nodiscard]] const std::vector<StoppedLine>& stopped() const { return stopped_; }
  /// Tees that drew air on the day, and the open end behind each.
  [[nodiscard]] const std::vector<DrawingTee>& drawing() const { return drawing_; }
  [[nodiscard]] long iterations() const { return iterations_; }
  [[nodiscard]] std::size_t solves() const { return solves_; }
  [[nodiscard]] const std::string& failure() const { return failure_; }
  /// The farm with the day's values in place of its months.
  [[nodiscard]] const model::Farm& day_farm() const { return farm_; }
  [[nodiscard]] const FlowState& state() const { return state_; }

 private:
  void put_yields();
  void rebuild();
  void find_watched();
  void put_wishes(const StepWishes& wishes, double seconds);
  [[nodiscard]] bool solve();
  [[nodiscard]] bool something_may_happen() const;
  [[nodiscard]] bool something_happened();
  void account(const StepWishes& wishes, double seconds, StepWater& water);

  model::Farm farm_;
  const FarmStores& stores_;
  FlowState state_;
  std::optional<nodal::NodalSolver> solver_;
  std::vector<double> level_m_;
  std::vector<double> volume_m3_;
  std::vector<StoppedLine> stopped_;
  std::vector<DrawingTee> drawing_;
  std::vector<std::size_t> summits_;    // edges of summits that may part
  std::vector<std::size_t> breakable_;  // springs below some high point of their lines
  bool stale_ = true;                   // the network no longer fits the farm
  bool changed_ = true;                 // the network has another pattern than the state came from
  long iterations_ = 0;
  std::size_t solves_ = 0;
  std::string failure_;
};

}  // namespace leat::solver
