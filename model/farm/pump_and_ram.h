// What lifts water: pumps and rams.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "model/farm/clock_range.h"
#include "model/quantity/quantity.h"
#include "model/text/source_position.h"

namespace leat::model {

/// Lifts water from one place to another.
struct Pump {
  std::string name;
  std::size_t from = 0;  // index into Farm::places
  std::size_t to = 0;
  std::vector<std::pair<Flow, Length>> curve;  // two or more; the flows rise, the heads fall
  std::vector<ClockRange> runs;
  std::optional<Duration> hours_a_day;  // instead of hours of the clock
  std::optional<double> efficiency;
  SourcePosition position;
};

/// A hydraulic ram between the end of its drive pipe and the start of its delivery pipe. Its waste
/// valve beats at `level` (where absent, the level of the drive pipe's end); `takes` is the drive
/// flow it is set to (where absent, what the drive pipe brings).
struct Ram {
  std::string name;
  std::size_t drive = 0;  // index into Farm::pipes
  std::size_t delivery = 0;
  std::optional<Elevation> level;
  std::optional<Flow> takes;
  std::optional<double> efficiency;  // d'Aubuisson's
  SourcePosition position;
};

}  // namespace leat::model
