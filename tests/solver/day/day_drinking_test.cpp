// The hours in which stock drink.
#include <algorithm>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/day/day_values.h"

namespace leat::tests {

namespace {

using solver::drinking_hours;
using solver::drinking_share;

constexpr double hour_s = 3600.0;

model::Trough drinks(std::vector<model::ClockRange> ranges) {
  model::Trough trough;
  trough.drinks = std::move(ranges);
  return trough;
}

model::Trough within(Duration time) {
  model::Trough trough;
  trough.within = time;
  return trough;
}

TEST_CASE("a herd with water near at hand drinks its day in four hours", "[reference]") {
  // Reference I3.1 (Ohio State ANR-12): inflow is the daily need in 4 h: a quarter of the day an
  // hour, six times the day's mean.
  const model::Trough trough = within(hours(4.0));
  CHECK(drinking_hours(trough) == Approx(4.0));
  CHECK(drinking_share(trough, 12.0 * hour_s, 13.0 * hour_s) == Approx(0.25));
  CHECK(drinking_share(trough, 10.0 * hour_s, 14.0 * hour_s) == Approx(1.0));
  CHECK(drinking_share(trough, 0.0, 10.0 * hour_s) == 0.0);
  CHECK(drinking_share(trough, 14.0 * hour_s, 24.0 * hour_s) == 0.0);
}

TEST_CASE("a herd that comes at once drinks within twenty minutes", "[reference]") {
  // Reference I3.3 (BC Ministry of Agriculture): the whole herd in 20 min; 50 cows of 12.5 gal ask
  // for 31 gal/min.
  const model::Trough trough = within(seconds(1200.0));
  CHECK(drinking_share(trough, 12.0 * hour_s - 600.0, 12.0 * hour_s + 600.0) == Approx(1.0));
  CHECK(50 * 12.5 / (drinking_hours(trough) * 60.0) == Approx(31.25));
}

TEST_CASE("without a word stock drink the whole day through") {
  const model::Trough trough;
  CHECK(drinking_hours(trough) == 24.0);
  CHECK(drinking_share(trough, 3.0 * hour_s, 6.0 * hour_s) == Approx(0.125));
}

TEST_CASE("hours of the clock win over a time within and run past midnight") {
  model::Trough trough = drinks({{hours(22.0), hours(4.0)}});
  trough.within = hours(2.0);
  CHECK(drinking_hours(trough) == Approx(6.0));
  CHECK(drinking_share(trough, 0.0, 4.0 * hour_s) == Approx(4.0 / 6.0));
  CHECK(drinking_share(trough, 4.0 * hour_s, 22.0 * hour_s) == 0.0);
  CHECK(drinking_share(trough, 22.0 * hour_s, 24.0 * hour_s) == Approx(2.0 / 6.0));
}

TEST_CASE("hours named twice count once") {
  const model::Trough trough =
      drinks({{hours(6.0), hours(9.0)}, {hours(8.0), hours(10.0)}, {hours(7.0), hours(8.0)}});
  CHECK(drinking_hours(trough) == Approx(4.0));
  CHECK(drinking_share(trough, 8.0 * hour_s, 9.0 * hour_s) == Approx(0.25));
  CHECK(drinking_hours(drinks({{hours(0.0), hours(24.0)}, {hours(1.0), hours(2.0)}})) == 24.0);
  CHECK(drinking_hours(drinks({{hours(6.0), hours(24.0)}, {hours(24.0), hours(6.0)}})) == 24.0);
}

TEST_CASE("the shares of a day add up to all of it, whatever the step", "[law]") {
  const std::vector<model::Trough> troughs = {
      model::Trough(),
      within(hours(4.0)),
      within(seconds(1e-9)),
      within(seconds(77.0)),
      drinks({{hours(6.0), hours(9.0)}, {hours(17.0), hours(20.0)}}),
      drinks({{hours(22.5), hours(4.25)}, {hours(3.0), hours(5.0)}})};
  for (const model::Trough& trough : troughs) {
    for (const double step_s : {60.0, 900.0, 3600.0, 7000.0, 86400.0}) {
      double sum = 0.0;
      for (double from_s = 0.0; from_s < 86400.0; from_s += step_s) {
        const double share = drinking_share(trough, from_s, std::min(from_s + step_s, 86400.0));
        CHECK(share >= 0.0);
        sum += share;
      }
      CAPTURE(step_s);
      CHECK(sum == Approx(1.0).epsilon(1e-9));
    }
  }
}

}  // namespace

}  // namespace leat::tests
