// What the file's words about one pipe come to, as `leat read` shows it.
#pragma once

#include <optional>

#include "model/farm/farm.h"

namespace leat::render {

struct PipeReading {
  Elevation from_level;
  Elevation to_level;
  double forward_k = 0.0;         // entrance, fittings, valve and exit, on the pipe's velocity head
  std::optional<double> valve_k;  // of the valve alone; none without one or where it is shut
  bool is_shut = false;
  bool is_one_way = false;  // said so, by a fitting, or by a regulator
};

/// Reads a pipe for water that runs from `from` to `to`, foot valves fully lifted. Where the water
/// leaves through a seat or an opening, no exit loss is counted: the orifice takes its place.
[[nodiscard]] PipeReading pipe_reading(const model::Farm& farm,
                                       const model::Pipe& pipe,
                                       std::optional<model::Month> month);

}  // namespace leat::render
