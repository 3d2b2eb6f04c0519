// One thing that may be wrong at one place, how likely it is beforehand, and how it is put into a
// farm at a size.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/farm.h"

namespace leat::solver {

enum class CauseKind {
  BlockedScreen,  // size: extra K at the pipe's start
  KinkedPipe,     // size: extra K along the pipe
  SiltedPipe,     // size: share of the bore that is lost, over the whole pipe
  TrappedAir,     // size: height of the pocket [m], the head it holds back
  ValveNotOpen,   // size: how far the valve stands open, as in the file
  LevelWrong,     // size: how much higher the place is than written [m], of either sign
  PipeEndWrong,   // the same for the level of a pipe's end (`ends`)
  WaterColder,    // size: by how much [degrees]
  SpringWeaker,   // size: share of the yield that is missing
  LeakAtTee       // size: bore of the hole [m]; reported as the flow it loses
};

/// How a size is spaced: factors of it, or differences, are what counts.
enum class SizeScale { Logarithmic, Linear };

/// A cause where it could sit.
struct FitSite {
  CauseKind kind = CauseKind::KinkedPipe;
  bool at_pipe = false;  // `index` is a pipe; else a place; of WaterColder neither
  std::size_t index = 0;
  double at_m = 0.0;   // of TrappedAir: the high point, as the file writes it
  double least = 0.0;  // sizes tried
  double most = 0.0;
  SizeScale scale = SizeScale::Logarithmic;
  double usual = 0.0;         // the middle of what is likely beforehand: median, or mean
  double usual_spread = 0.0;  // standard deviation, of the logarithm where the scale is that
  double weight = 1.0;        // how likely the cause is at all, against the others
};

/// Everything that may be wrong with a farm, in the order of its pipes and places.
[[nodiscard]] std::vector<FitSite> fit_sites(const model::Farm& farm,
                                             std::optional<model::Month> month);

/// Distance [m] a place's level was carried over: the shortest pipe that meets it.
[[nodiscard]] double sight_distance_m(const model::Farm& farm, std::size_t place);

/// Puts the cause into a farm. Trapped air and leaks change no value of a farm: see ReadingModel.
void put_in(const FitSite& site, double size, model::Farm& farm);
/// Undoes `put_in` with the values of the farm as filed.
void take_out(const FitSite& site, const model::Farm& filed, model::Farm& farm);

/// A size on the scale it is searched on, and back.
[[nodiscard]] double on_scale(const FitSite& site, double size);
[[nodiscard]] double off_scale(const FitSite& site, double scaled);
/// Chance beforehand that the size lies between two values, given the cause.
[[nodiscard]] double chance_between(const FitSite& site, double low, double high);

}  // namespace leat::solver
