#include "solver/hydrology/straight_table.h"

#include <cstddef>

namespace leat::hydrology {

TableValue straight_table_at(std::span<const TablePoint> points, double x) {
  std::size_t upper = 1;
  while (upper + 1 < points.size() && points[upper].x <= x) {
    ++upper;
  }
  const TablePoint& from = points[upper - 1];
  const TablePoint& to = points[upper];
  const double slope = (to.y - from.y) / (to.x - from.x);
  // Measured from the nearer corner, so that each corner's own value comes out exactly.
  const bool nearer_to = x - from.x > to.x - x;
  const double value = nearer_to ? to.y + slope * (x - to.x) : from.y + slope * (x - from.x);
  return {.value = value, .slope = slope};
}

}  // namespace leat::hydrology
