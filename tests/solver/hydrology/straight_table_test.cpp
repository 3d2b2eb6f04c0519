#include "solver/hydrology/straight_table.h"

#include <array>

#include <catch2/catch.hpp>

namespace leat::hydrology {
namespace {

TEST_CASE("points joined straight give their own values, and the end pieces go on") {
  constexpr std::array<TablePoint, 3> points = {{{0.0, 10.0}, {2.0, 8.0}, {3.0, 2.0}}};
  CHECK(straight_table_at(points, 0.0).value == 10.0);
  CHECK(straight_table_at(points, 2.0).value == 8.0);
  CHECK(straight_table_at(points, 3.0).value == 2.0);
  CHECK(straight_table_at(points, 1.0).value == Approx(9.0));
  CHECK(straight_table_at(points, 2.5).value == Approx(5.0));
  CHECK(straight_table_at(points, 1.0).slope == Approx(-1.0));
  CHECK(straight_table_at(points, 2.0).slope == Approx(-6.0));
  CHECK(straight_table_at(points, -1.0).value == Approx(11.0));
  CHECK(straight_table_at(points, 4.0).value == Approx(-4.0));
}

}  // namespace
}  // namespace leat::hydrology
