// Pumps, rams and frost over a season.
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/season/season.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

solver::SeasonAnswer days(const model::Farm& farm,
                          model::Date from,
                          model::Date to,
                          double step_s) {
  solver::SeasonOptions options;
  options.from = from;
  options.to = to;
  options.step_s = step_s;
  return run_season(farm, options);
}

bool closes(const solver::WaterBalance& balance) {
  return std::abs(balance.error_m3) <= 1e-6 * balance.moved_m3 + 1e-6;
}

}  // namespace

TEST_CASE("a pump in the sun lifts for its hours around noon whatever the step", "[season]") {
  const model::Farm farm = farm_of(R"(
farm: sun pump
creeks:
  brook: {surface: 10 m}
tanks:
  tank: {floor: 20 m, full: 4 m, diameter: 6 m, depth: 1 m}
troughs:
  trough: {float: 15 m, need: 2000 L/day}
pumps:
  sun pump: {from: brook, to: tank, curve: [[0 L/min, 30 m], [20 L/min, 5 m]], runs: 6 h/day, efficiency: 0.4}
pipes:
  down: {from: tank, to: trough, size: 1 in SIDR 15, length: 60 m}
)");
  for (const double step_s : {3600.0, 7.0 * 3600.0, 86400.0}) {
    CAPTURE(step_s);
    const solver::SeasonAnswer answer = days(farm, {2026, 6, 1}, {2026, 6, 4}, step_s);
    REQUIRE(answer.converged);
    CHECK(closes(answer.balance));
    REQUIRE(answer.lifters.size() == 1);
    const solver::LifterSeason& pump = answer.lifters[0];
    CHECK(pump.running_h == Approx(24.0));
    // Between 11 and 14 m of lift on the straight curve: 12.8 to 15.2 L/min.
    CHECK(pump.delivered_m3 > 24.0 * 60.0 * 12.8e-3);
    CHECK(pump.delivered_m3 < 24.0 * 60.0 * 15.2e-3);
    // rho g V H over the efficiency, H between those lifts.
    const double kWh_a_metre = 1000.0 * 9.80665 * pump.delivered_m3 / 0.4 / 3.6e6;
    CHECK(pump.energy_kWh.value() > 10.9 * kWh_a_metre);
    CHECK(pump.energy_kWh.value() < 14.1 * kWh_a_metre);
    CHECK(answer.troughs.at(0).months.at(0).met.value() == Approx(1.0));
    CHECK(answer.tanks.at(0).levels.back().level_m > 21.0);
  }
}

TEST_CASE("a pump takes no more from a tank than stands over its floor", "[season]") {
  const model::Farm farm = farm_of(R"(
farm: emptied
tanks:
  low: {floor: 10 m, full: 2 m, diameter: 2 m, depth: 1 m}
  high: {floor: 20 m, full: 2 m, diameter: 4 m, depth: 0.1 m}
outlets:
  tap: {level: 21.9 m}
pumps:
  lift: {from: low, to: high, curve: [[0 L/min, 30 m], [40 L/min, 5 m]], runs: [6:00-18:00]}
pipes:
  over: {from: high, to: tap, size: 1 in SIDR 15, length: 20 m}
)");
  const solver::SeasonAnswer answer = days(farm, {2026, 6, 1}, {2026, 6, 2}, 3600.0);
  REQUIRE(answer.converged);
  CHECK(closes(answer.balance));
  CHECK(answer.lifters.at(0).delivered_m3 == Approx(3.14159).epsilon(0.01));
  CHECK(answer.tanks.at(0).lowest_m >= 10.0 - 1e-6);
  CHECK_FALSE(answer.lifters.at(0).energy_kWh.has_value());
}

TEST_CASE("what a ram wastes over a season is spilled, and frost is told where it may strike",
          "[season]") {
  const model::Farm farm = farm_of(R"(
farm: ram
site: {water: 6 C}
creeks:
  brook: {surface: 20 m}
tees:
  ram head: 16 m
tanks:
  house: {floor: 30 m, full: 2 m, diameter: 2 m, depth: 0.5 m}
troughs:
  trough: {float: 22 m, need: 500 L/day, seat: 6 mm}
pipes:
  drive: {from: brook, to: ram head, size: 2 in sch 40 steel, length: 20 m}
  delivery: {from: ram head, to: house, size: 3/4 in SIDR 15, length: 80 m, lies: grass}
  down: {from: house, to: trough, size: 3/4 in SIDR 15, length: 60 m, lies: buried}
rams:
  ram: {drive: drive, delivery: delivery, level: 16 m, takes: 20 L/min}
weather: {tmin: -8 C, tmax: 1 C}
)");
  const solver::SeasonAnswer answer = days(farm, {2026, 1, 1}, {2026, 1, 5}, 3600.0);
  REQUIRE(answer.converged);
  CHECK(closes(answer.balance));
  const solver::LifterSeason& ram = answer.lifters.at(0);
  CHECK(ram.delivered_m3 + ram.wasted_m3 == Approx(5 * 1440 * 0.020).epsilon(0.01));
  CHECK(ram.delivered_m3 > 0.0);
  CHECK(ram.running_h == Approx(120.0));
  CHECK(answer.balance.spilled_m3 >= ram.wasted_m3);
  bool told = false;
  for (const solver::Finding& flag : answer.flags) {
    told = told || flag.code == solver::Code::Freezes;
  }
  bool nights = false;
  for (const solver::SeasonNote& note : answer.notes) {
    const auto* told_nights = std::get_if<solver::FrostNights>(&note);
    nights = nights || (told_nights != nullptr && !told_nights->months.empty());
  }
  CHECK(nights);
  CHECK(told);
}

}  // namespace leat::tests
