// Laws of a season on random farms: no run fails whatever the step, no water is lost, less water
// never means fewer dry hours.
#include <array>
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/day/day_values.h"
#include "solver/season/season.h"
#include "tests/support/farms_asked.h"
#include "tests/support/random_season.h"

namespace leat::tests {

namespace {

/// Ten millilitres: a season in which next to nothing moves has only the rounding of its steps to
/// show, and stores are solved to 1e-8 m of their level (of 2 000 farm years the worst was 1.2 mL).
constexpr double nothing_m3 = 1e-5;

solver::SeasonAnswer season_of(const model::Farm& farm, int days, double step_s) {
  solver::SeasonOptions options;
  options.from = model::Date{2026, 7, 20};
  options.to = model::date_of_day(model::day_number(options.from) + days - 1);
  options.step_s = step_s;
  return solver::run_season(farm, options);
}

struct Span {
  double step_s;
  int days;       // of the quick run
  int full_days;  // where LEAT_FARMS asks for the documented size
};

}  // namespace

TEST_CASE("no season fails and none loses water whatever the step", "[law][season]") {
  constexpr std::array<Span, 5> spans = {Span{60.0, 1, 2},
                                         {3600.0, 25, 365},
                                         {21600.0, 25, 365},
                                         {86400.0, 40, 365},
                                         {604800.0, 60, 365}};
  const std::uint64_t farms = farms_asked_by_name() ? farms_asked() : 40;
  std::uint64_t failed = 0;
  for (std::uint64_t seed = 1; seed <= farms; ++seed) {
    const Span& span = spans[seed % spans.size()];
    const model::Farm farm = random_season_farm(seed);
    const solver::SeasonAnswer answer =
        season_of(farm, farms_asked_by_name() ? span.full_days : span.days, span.step_s);
    INFO("seed " << seed << ", step " << span.step_s << " s");
    if (!answer.converged) {
      ++failed;
      UNSCOPED_INFO("seed " << seed << ": "
                            << std::get<solver::NoBalance>(answer.problems.at(0)).report);
      continue;
    }
    const solver::WaterBalance& water = answer.balance;
    CHECK(std::abs(water.error_m3) <= 1e-6 * water.moved_m3 + nothing_m3);
    // What rounds to nothing in a step adds up over a year as the water does that rounds.
    const double nothing_in_all_m3 = 1e-6 * water.moved_m3 + nothing_m3;
    CHECK(water.in_m3 >= -nothing_in_all_m3);
    CHECK(water.spilled_m3 >= -nothing_in_all_m3);
    CHECK(water.lost_m3 >= -nothing_in_all_m3);
    for (const solver::TroughSeason& trough : answer.troughs) {
      for (const solver::MonthAtTrough& month : trough.months) {
        CHECK(month.got_m3 >= -nothing_m3);
        CHECK(month.dry_h >= 0.0);
        CHECK(month.dry_h <= 31.0 * 24.0 + 1e-6);
        CHECK((month.met.value_or(1.0) >= 0.995 || month.reason.has_value()));
      }
    }
  }
  CHECK(failed == 0);
}

TEST_CASE("less yield never means fewer dry hours in a tree with one spring", "[law][season]") {
  const std::uint64_t farms = farms_asked_by_name() ? farms_asked() / 4 : 25;
  for (std::uint64_t seed = 1; seed <= farms; ++seed) {
    model::Farm farm = random_tree_farm(seed);
    const solver::SeasonAnswer more = season_of(farm, 6, 3600.0);
    auto& yield = std::get<model::Spring>(farm.places[0].data).yield;
    yield = model::MonthSeries<Flow>::constant(yield.by_month[0] * 0.85);
    const solver::SeasonAnswer less = season_of(farm, 6, 3600.0);
    REQUIRE(more.converged);
    REQUIRE(less.converged);
    for (std::size_t i = 0; i < more.troughs.size(); ++i) {
      double dry_more_h = 0.0;
      double dry_less_h = 0.0;
      for (std::size_t month = 0; month < more.troughs[i].months.size(); ++month) {
        dry_more_h += more.troughs[i].months[month].dry_h;
        dry_less_h += less.troughs[i].months[month].dry_h;
      }
      INFO("seed " << seed << ", " << farm.places[more.troughs[i].place].name);
      CHECK(dry_less_h >= dry_more_h - 1e-3);
    }
  }
}

// METHOD.md, "The season": hours are averaged within the step, so that at both ends of the drinking
// hours up to a step is blurred.
TEST_CASE("halving the step moves what a trough gets by less than a step of its drinking hours",
          "[law][season]") {
  const std::uint64_t farms = farms_asked_by_name() ? farms_asked() / 8 : 12;
  for (std::uint64_t seed = 1; seed <= farms; ++seed) {
    const model::Farm farm = random_tree_farm(seed);
    const solver::SeasonAnswer whole = season_of(farm, 6, 3600.0);
    const solver::SeasonAnswer half = season_of(farm, 6, 1800.0);
    REQUIRE(whole.converged);
    REQUIRE(half.converged);
    for (std::size_t i = 0; i < whole.troughs.size(); ++i) {
      const solver::MonthAtTrough& a = whole.troughs[i].months[0];
      const solver::MonthAtTrough& b = half.troughs[i].months[0];
      INFO("seed " << seed << ", " << farm.places[whole.troughs[i].place].name);
      const auto& trough = std::get<model::Trough>(farm.places[whole.troughs[i].place].data);
      CHECK(std::abs(a.got_m3 - b.got_m3) <= 1.001 * a.need_m3 / solver::drinking_hours(trough));
    }
  }
}

}  // namespace leat::tests
