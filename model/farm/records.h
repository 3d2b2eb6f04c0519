// What the keeper measured and how, what things cost, what lies on the barn floor. Plain values.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/date.h"
#include "model/quantity/quantity.h"
#include "model/text/source_position.h"

namespace leat::model {

/// What a level, a flow or a pressure was measured with.
enum class Instrument { Unsaid, Bucket, Gauge, HandLevel, BuildersLevel, WaterLevel, Phone };

/// One thing measured at one place, perhaps several times over.
struct Measurement {
  enum class Kind { Flow, Pressure, Level };
  std::size_t place = 0;            // index into Farm::places; of a pipe, where it ends
  std::optional<std::size_t> pipe;  // index into Farm::pipes, where a pipe was named
  Kind kind = Kind::Flow;
  std::vector<double> values;      // SI: m3/s, Pa gauge, m on the datum; at least one
  std::vector<double> bucket_s;    // filling times of flows given as VOLUME in TIME, else 0
  std::vector<std::string> given;  // as written
  std::optional<Date> on;
  Instrument with = Instrument::Unsaid;
  SourcePosition position;
};

/// Money for a metre of pipe of one size.
struct PipePrice {
  std::string size;  // as the catalogue spells it
  double per_metre = 0.0;
};

/// Money for one fitting.
struct FittingPrice {
  std::string fitting;  // catalogue name
  double each = 0.0;
};

/// Pipe that is there already.
struct PipeStock {
  std::string size;  // as the catalogue spells it
  Length length;
};

}  // namespace leat::model
