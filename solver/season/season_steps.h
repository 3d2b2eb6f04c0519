// A farm carried from one moment of a season to the next: its stores, siphons and floats as they
// stand, and the water that one step moves.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "model/farm/farm.h"
#include "solver/day/day_values.h"
#include "solver/flow/flow_state.h"
#include "solver/flow/status_changes.h"
#include "solver/network/farm_stores.h"
#include "solver/nodal/newton.h"

namespace leat::solver {

/// What is asked of the farm during one step, by place of the farm [m3/s].
struct StepWishes {
  /// What stock want at a trough; what stock, sun and ground together take from a pond.
  std::vector<double> taken_m3_s;
  std::vector<double> inflow_m3_s;  // rain and runoff into a pond
  std::vector<double> pump_share;   // of the step in which a pump runs, by pump of the farm
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

/// What a pump or ram did in one step.
struct LifterWater {
  double delivered_m3 = 0.0;
  double wasted_m3 = 0.0;  // of a ram
  double energy_J = 0.0;   // of a pump whose efficiency is known
  double running_s = 0.0;
};

/// The water of one step.
struct StepWater {
  std::vector<PlaceWater> places;
  std::vector<LifterWater> lifters;  // pumps, then rams, in the farm's order
  std::vector<double> pipe_m3;       // by pipe, positive from its start to its end
  double vents_m3 = 0.0;             // over the tops of vents
  double rain_m3 = 0.0;              // rain and runoff into ponds

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
  /// The network with some tees open, lines stopped, floats hanging and pumps still: kept, since a
  /// day brings the same ones as the day before, at the same hours.
  struct Shape {
    /// The answer at one step of the latest day, and the levels at the step's start.
    struct Remembered {
      nodal::State state;
      std::vector<double> level_m;
    };
    std::unique_ptr<FarmNetwork> network;  // empty while `state_` has it
    std::optional<nodal::NodalSolver> solver;
    std::vector<Remembered> by_part;
    long built_for = -1;  // which of the farm's changes it knows
  };
  using ShapeKey = std::tuple<std::set<std::size_t>,
                              std::set<std::size_t>,
                              std::set<std::size_t>,
                              std::set<std::size_t>>;

  void put_yields();
  void enter_shape();
  [[nodiscard]] bool advance_part(const StepWishes& wishes,
                                  double seconds,
                                  bool is_whole,
                                  StepWater& water);
  [[nodiscard]] bool is_full(std::size_t tee, double above_m) const;
  [[nodiscard]] std::vector<std::size_t> open_tees_guessed();
  [[nodiscard]] bool close_guessed_that_are_full(std::vector<std::size_t>& guessed);
  [[nodiscard]] const nodal::State* yesterdays_state();
  void remember();
  void find_watched();
  void put_wishes(const StepWishes& wishes, double seconds);
  [[nodiscard]] bool solve(bool is_whole);
  [[nodiscard]] bool is_fed_by_ram(std::size_t pipe) const;
  void account_lifters(double seconds, StepWater& water);
  [[nodiscard]] bool something_may_happen() const;
  [[nodiscard]] bool something_happened();
  void account(const StepWishes& wishes, double seconds, StepWater& water);
  [[nodiscard]] double moved_m3(std::size_t edge, double seconds) const;
  void account_place(std::size_t index, double wanted_m3_s, double seconds, PlaceWater& here) const;
  void take_level(std::size_t place);
  void account_pipe(std::size_t index, double seconds, StepWater& water) const;

  model::Farm farm_;
  const FarmStores& stores_;
  FlowState state_;
  std::map<ShapeKey, Shape> shapes_;
  Shape* shape_ = nullptr;  // the one whose network `state_` has
  std::vector<double> level_m_;
  std::vector<double> volume_m3_;
  std::vector<StoppedLine> stopped_;
  std::vector<DrawingTee> drawing_;
  std::vector<std::size_t> summits_;    // edges of summits that may part
  std::vector<std::size_t> breakable_;  // springs below some high point of their lines
  long changes_ = 0;                    // of the farm, so far, that ask for a network made anew
  bool changed_ = true;                 // the network has another pattern than the state came from
  std::size_t part_ = 0;                // which step of the day comes next
  std::vector<std::set<std::size_t>> open_by_part_;  // tees, at each step of the latest day
  nodal::State guess_;                               // yesterday's answer, moved to today's levels
  long iterations_ = 0;
  std::size_t solves_ = 0;
  std::string failure_;
};

}  // namespace leat::solver
