// Points joined by straight lines.
#pragma once

#include <span>

namespace leat::hydrology {

struct TablePoint {
  double x = 0.0;
  double y = 0.0;
};

struct TableValue {
  double value = 0.0;
  double slope = 0.0;  // of the piece the value lies on; at a corner, of the piece above it
};

/// The value at x and its slope. Beyond the ends the end pieces go on. At least two points, x
/// rising strictly.
[[nodiscard]] TableValue straight_table_at(std::span<const TablePoint> points, double x);

}  // namespace leat::hydrology
