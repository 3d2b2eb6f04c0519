// The steps by which a line is filled: what is shut, opened, carried, poured, waited for, watched.
// What all of them share (the line's names, how its ends are shut) stands in the plan itself.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "solver/prime/line_names.h"

namespace leat::solver {

namespace priming {

/// How to stop the line, to be known before it is started.
struct KnowHowToStop {
  std::vector<Branch> shut_off;  // those that run with the line: they would draw on
};

struct CarryWater {
  double ready_m3 = 0.0;          // with what is spilled
  double line_m3 = 0.0;           // what the line holds
  bool has_inner_bleeds = false;  // caps are wanted for lower high points too
};

struct ShutBranch {
  enum class How { IsShut, AtItsValve, HasNoValve };
  How how = How::HasNoValve;
  Branch branch;
  double branch_m3 = 0.0;  // what it takes where it is left open
};

struct CloseInlet {};

struct CloseOutlet {
  bool left_open = false;  // as yet: the line rises to it, and its air leaves there
};

struct OpenSummit {};

struct OpenHighPoint {
  HighPoint point;
};

/// The first water in at the summit.
struct Pour {
  double rate_m3_s = 0.0;
  std::optional<double> velocity_m_s;  // in the pipe, where that is what limits the rate
  double inlet_side_m3 = 0.0;
  double already_in_m3 = 0.0;  // of that, behind a one-way; 0 where nothing stays in
  double outlet_side_m3 = 0.0;
  bool to_the_brim = false;  // no high point is capped in between
};

struct CapHighPoint {
  HighPoint point;
  double poured_m3 = 0.0;  // since the step before
};

struct ShutOutlet {
  double poured_m3 = 0.0;  // since the step before
};

struct PourOn {};
struct WaitAndTopUp {};
struct CapSummit {};
struct OpenInlet {};
struct OpenOutlet {};

struct WaitForOwnWater {
  double after_s = 0.0;       // at least, where branches are still shut
  bool has_branches = false;  // that are still shut
};

struct LetBranchIn {
  Branch branch;
  bool leaves = false;  // it takes water from the line; else it brings some
};

struct MeasureFlow {
  double flow_m3_s = 0.0;
  bool is_lifted = false;  // the end is held over a bucket instead of under its water
};

struct Watch {
  /// How air at the summit is got out of a running line.
  enum class TopUp { BothEndsShut, LowerEndShut, BeginAgain };
  TopUp top_up = TopUp::BeginAgain;
  std::vector<Branch> shut_off;
  std::size_t begin_at = 0;  // number of the step to begin again at, from 1
};

// ... and of a line that fills by itself:

struct KeepBranchShut {
  enum class How { AtItsValve, AtItsFarEnd, FillsAlong, BringsWater };
  How how = How::AtItsFarEnd;
  Branch branch;
  std::string far_end;  // the place at its other end
};

struct OpenBeforeWater {
  HighPoint point;
  bool is_first = false;
};

struct LetWaterIn {
  std::optional<double> at_most_m3_s;  // absent where by itself no more runs than should
  double velocity_m_s = 0.0;           // in the pipe at that rate
};

struct CloseHighPoint {
  HighPoint point;
};

struct LetItRunFull {
  double rate_m3_s = 0.0;
  double fill_s = 0.0;
};

}  // namespace priming

using PrimeAction = std::variant<priming::KnowHowToStop,
                                 priming::CarryWater,
                                 priming::ShutBranch,
                                 priming::CloseInlet,
                                 priming::CloseOutlet,
                                 priming::OpenSummit,
                                 priming::OpenHighPoint,
                                 priming::Pour,
                                 priming::CapHighPoint,
                                 priming::ShutOutlet,
                                 priming::PourOn,
                                 priming::WaitAndTopUp,
                                 priming::CapSummit,
                                 priming::OpenInlet,
                                 priming::OpenOutlet,
                                 priming::WaitForOwnWater,
                                 priming::LetBranchIn,
                                 priming::MeasureFlow,
                                 priming::Watch,
                                 priming::KeepBranchShut,
                                 priming::OpenBeforeWater,
                                 priming::LetWaterIn,
                                 priming::CloseHighPoint,
                                 priming::LetItRunFull>;

/// One step, at a place or a pipe of the file.
struct PrimeStep {
  std::string where;
  PrimeAction action;
  std::optional<double> volume_m3;  // poured in during it
  std::optional<double> time_s;     // it takes at least
};

}  // namespace leat::solver
