// A pipe or a run of pipes from the side: how high it lies, how high the water in it stands,
// running and with everything shut.
// Room: which pipes a run takes, and what water stands and sits at each of its points.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/answer/steady_answer.h"
#include "solver/profile/pipe_run.h"

namespace leat::solver {

/// What a point of a profile is the place of. Where several things sit at one place, the point is
/// there several times.
enum class ProfileMark {
  None,
  Start,   // of the run
  End,     // of the run
  Joint,   // a place between two pipes of the run
  Summit,  // the path turns downward from a high point
  Knee,    // ... or only falls faster, or rises less, from there
  Bleed,   // a high point without a vent: air gathers here
  Vent,
  Regulator,
  Valve,
  OneWay,     // a foot valve or check, or the start of a pipe said to be one-way
  Fitting,    // another fitting with a place of its own
  PartFull,   // from here the water does not fill the pipe
  FullAgain,  // from here it does again
};
/// "summit" (also of a knee), "bleed", "one-way", "part full", "full again" ...; a joint's is the
/// kind of its place.
[[nodiscard]] const char* word_of(ProfileMark mark);

/// A point of the run.
struct ProfilePoint {
  std::size_t pipe = 0;
  double at_m = 0.0;        // distance from the pipe's own start, as the file writes it
  double along_m = 0.0;     // length of pipe from the start of the run
  double distance_m = 0.0;  // from the start of the run, measured as the pipes' paths are
  double elevation_m = 0.0;
  // Grade line of the running water. Where water does not fill the pipe, its surface, taken at the
  // pipe's own level, under whatever pressure stands above it (the air's: the pipe's level).
  std::optional<double> running_head_m;
  std::optional<double> static_head_m;  // with every end shut (static_heads.h)
  std::optional<double> pressure_Pa;    // gauge, velocity head taken off
  std::optional<double> absolute_head_m;
  bool part_full = false;
  ProfileMark mark = ProfileMark::None;
  std::string name;  // of the place or catalogue's fitting a mark stands for; empty for the others
};

/// One pipe of the run.
struct ProfileLeg {
  RunLeg leg;
  double from_m = 0.0;  // distance along the run
  double to_m = 0.0;
  // What the pipe may carry at rest (rating and warmth) as a head above it; only where the static
  // head somewhere takes more than two thirds of it.
  std::optional<double> rating_head_m;
};

/// A summit of the run.
struct ProfileSummit {
  std::size_t pipe = 0;
  double distance_m = 0.0;
  SummitAnswer summit;
  bool is_high_point = false;  // the pipe comes up to it; else it only falls faster from here
};

/// A reach whose pipe is not full of water.
struct PartFullReach {
  double from_m = 0.0;  // distances along the run
  double to_m = 0.0;
  double length_m = 0.0;      // of pipe
  bool running = false;       // else the water stands and the reach is empty
  bool under_vapour = false;  // beyond a parted summit; else under air
  bool full_again = false;    // further down the run the pipe is full
};

struct Profile {
  SteadyAnswer answer;  // of the whole farm
  std::vector<ProfileLeg> legs;
  std::vector<ProfilePoint> points;
  std::vector<ProfileSummit> summits;
  std::vector<PartFullReach> reaches;
  std::vector<model::Diagnostic> problems;  // why the farm has no solution
  std::optional<RunProblem> problem;        // why there is no run

  /// Whether there is a profile; else all else but the problems is empty.
  [[nodiscard]] bool is_made() const { return problems.empty() && !problem; }
};

/// Where the static head takes more of the rating than one in this, the rating is shown.
inline constexpr double rating_shown_within = 1.5;

/// Profile of the run that `words` name (pipe_run.h); of the telling pipe where they are empty.
[[nodiscard]] Profile profile_of(const model::Farm& farm,
                                 const std::string& words,
                                 const SteadyOptions& options);

}  // namespace leat::solver
