// What frost does to a farm's pipes: plain values. Every flow and time may be half or twice what is
// said (solver/hydrology/freezing.h).
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/date.h"

namespace leat::solver {

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
  double water_C = 0.0;                   // at which its water starts out in the coldest night
  std::optional<double> least_flow_m3_s;  // empty: the water comes too cold for any flow
  std::optional<double> flow_m3_s;        // as given
  FrostVerdict verdict = FrostVerdict::Untold;
  double first_ice_h = 0.0;  // until its standing water has first ice ...
  double solid_h = 0.0;      // ... and is solid
  std::vector<DrainPoint> drains;
};

}  // namespace leat::solver
