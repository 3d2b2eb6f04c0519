// What reading one day of a season costs: no memory but the first day's.
#include <catch2/catch.hpp>

#include "solver/day/day_values.h"
#include "tests/support/allocation_count.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

TEST_CASE("a month is read day by day without asking for memory", "[cost]") {
  const model::Farm farm = farm_of(
      "farm: days\nsite: {altitude: 200 m, latitude: 45}\n"
      "weather: {tmin: {Jan: -3 C, Jul: 12 C}, tmax: 25 C, rain: 60 mm, rain days: 9}\n"
      "springs: {up: {overflow: 100 m, yield: {Jan: 9 L/min, Aug: 2 L/min}}}\n"
      "ponds: {dug: {surface: 80 m, shape: {top: 20 m x 20 m, depth: 2 m}, "
      "stock drink here: {dry beef cow: 30}, catchment: {area: 2 ha, curve number: 74}}}\n"
      "tees: {t: 85 m}\ntroughs: {low: {float: 80 m, herd: {dry beef cow: 24, goat: 12}}}\n"
      "pipes:\n  a: {from: up, to: t, size: 1 in SIDR 15, length: 60 m}\n"
      "  b: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}\n"
      "  c: {from: t, to: dug, size: 1 in SIDR 15, length: 60 m}\n");
  const solver::FarmDays days(farm);
  solver::DayValues values = days.on({2026, 1, 1});
  double drunk_m3 = 0.0;
  const std::uint64_t before = heap_requests();
  for (int day = 1; day <= 28; ++day) {
    days.read({2026, 2, day}, values);
    drunk_m3 += values.places[1].pond->stock_m3;
  }
  CHECK(heap_requests() == before);
  CHECK(drunk_m3 > 0.0);
}

}  // namespace leat::tests
