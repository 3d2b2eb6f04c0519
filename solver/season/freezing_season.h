// Will it freeze: how many nights, which pipes lie open to them, what flow keeps each open, how
// long its water may stand, and where it is drained. Rules of thumb (hydrology/freezing.h): every
// flow and time may be half or twice what is said.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/frost.h"
#include "solver/answer/season_note.h"

namespace leat::solver {

/// How far single nights stray from the usual night of their month [C], as a standard deviation
/// (common practice for lowlands of the temperate zone, no source).
inline constexpr double night_spread_C = 4.5;
/// The coldest night to reckon with stands so many spreads below the month's usual night: of a
/// normal spread, one night in 44 is colder.
inline constexpr double coldest_night_spreads = 2.0;
/// Water may leave a pipe, or stand in a trough's open hole, so warm at least [C] (common practice,
/// no source).
inline constexpr double least_water_C = 0.5;
/// The hole that stock drink from: half a metre square (common practice, no source).
inline constexpr double open_hole_m2 = 0.25;

/// One trough, open to the sky; all have the same hole under the same sky.
struct FrostTrough {
  std::size_t place = 0;
  std::optional<double> least_inflow_m3_s;  // that keeps a hole open; empty: water too cold
  std::optional<double> flow_m3_s;          // of its pipe, as given
  FrostVerdict verdict = FrostVerdict::Untold;
};

struct FrostAnswer {
  std::vector<FrostMonth> months;
  std::optional<FrostNight> coldest;  // empty: no night is told of, or none may freeze
  std::vector<FrostPipe> pipes;       // in the file's order; none where nothing may freeze
  std::vector<DrainPoint> low_tees;   // tees that every pipe leaves upward
  std::vector<FrostTrough> troughs;
  std::vector<SeasonNote> notes;  // the nights, troughs and tees, and what was taken for granted
};

/// What frost does to a farm between two dates (both counted). `flow_by_pipe_m3_s` is what runs in
/// each pipe in cold weather, in the farm's order, positive from `from` to `to`; or empty.
/// Throws std::invalid_argument where flows are given but not one for each pipe.
[[nodiscard]] FrostAnswer freezing_season(const model::Farm& farm,
                                          model::Date from,
                                          model::Date to,
                                          std::span<const double> flow_by_pipe_m3_s = {});

/// Inner points of a pipe's course that stand below both neighbours; of a level stretch, its start.
[[nodiscard]] std::vector<DrainPoint> low_points(const model::Farm& farm, std::size_t pipe);

}  // namespace leat::solver
