// Will it freeze: how many nights, which pipes lie open to them, what flow keeps each open, how
// long its water may stand, and where it is drained. Rules of thumb (hydrology/freezing.h): every
// flow and time may be half or twice what is said.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/hydrology/freezing.h"

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

/// Nights of one month (or the part of it asked for) whose lowest temperature is below 0 C.
struct FrostMonth {
  int year = 1970;
  model::Month month = model::Month::Jan;
  int nights = 0;              // asked about and told of
  double freezing = 0.0;       // of these: counted where measured, else expected
  double usual_night_C = 0.0;  // mean of the nights' lowest temperatures
  bool measured = false;       // every night of them was
};

/// The coldest night to reckon with.
struct FrostNight {
  model::Date on;
  double air_C = 0.0;
  double water_C = 0.0;  // as it leaves spring, creek, pond or tank
  double wind_m_s = 0.0;
  double humidity_percent = 0.0;
  bool measured = false;  // in that very night; else the month's usual night less two spreads
};

/// Where a pipe holds water that does not run out by itself.
struct DrainPoint {
  std::optional<std::size_t> tee = {};  // place, where a tee is the low point
  std::size_t pipe = 0;                 // else the pipe ...
  double at_m = 0.0;                    // ... and the distance, as the file writes it
  double elevation_m = 0.0;
};

/// What the flow that was given does in that night.
enum class FrostVerdict {
  Untold,     // no flow was given
  Enough,     // at least twice the least flow
  Doubtful,   // between half and twice
  TooLittle,  // below half, or no flow is enough
  Still       // nothing runs, or floats alone are fed: at night they are shut
};

/// One pipe that is not said to be buried.
struct FrostPipe {
  std::size_t pipe = 0;
  bool lies_untold = false;               // the file does not say how it lies
  bool feeds_floats_only = false;         // whatever it carries ends at float valves
  double loss_W_m_K = 0.0;                // heat a metre gives off
  double exposed_m = 0.0;                 // open pipe from the water down to this pipe's end
  std::optional<double> least_flow_m3_s;  // empty: the water comes too cold for any flow
  std::optional<double> flow_m3_s;        // as given
  FrostVerdict verdict = FrostVerdict::Untold;
  hydrology::FreezingHours still;  // until its standing water has first ice, and is solid
  std::vector<DrainPoint> drains;
  std::string text;  // in the units asked for
};

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
  std::vector<std::string> notes;  // the nights, troughs and tees in words, and what was taken for
                                   // granted
};

/// What frost does to a farm between two dates (both counted). `flow_by_pipe_m3_s` is what runs in
/// each pipe in cold weather, in the farm's order, positive from `from` to `to`; or empty.
/// Sentences in `units`, or else those the farm shows. Throws std::invalid_argument where flows are
/// given but not one for each pipe.
[[nodiscard]] FrostAnswer freezing_season(const model::Farm& farm,
                                          model::Date from,
                                          model::Date to,
                                          std::span<const double> flow_by_pipe_m3_s = {},
                                          std::optional<model::UnitSystem> units = {});

/// Inner points of a pipe's course that stand below both neighbours; of a level stretch, its start.
[[nodiscard]] std::vector<DrainPoint> low_points(const model::Farm& farm, std::size_t pipe);

}  // namespace leat::solver
