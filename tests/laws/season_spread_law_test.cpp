// Laws of a season's spread on random farms: it never fails, is in order, and depends on no thread.
#include <catch2/catch.hpp>

#include "solver/uncertainty/season_spread.h"
#include "tests/support/farms_asked.h"
#include "tests/support/random_season.h"

namespace leat::tests {

namespace {

bool is_in_order(const solver::LowLikelyHigh& range) {
  return range.low <= range.likely && range.likely <= range.high;
}

bool is_chance(double chance) {
  return chance >= 0.0 && chance <= 1.0;
}

}  // namespace

TEST_CASE("the spread of a season is in order and none of its draws fails",
          "[law][season][spread]") {
  const std::uint64_t farms = farms_asked_by_name() ? farms_asked() / 8 : 12;
  int draws = 0;
  int unsolved = 0;
  for (std::uint64_t seed = 1; seed <= farms; ++seed) {
    const model::Farm farm = random_season_farm(seed);
    solver::SeasonSpreadOptions options;
    options.season.from = model::Date{2026, 8, 9};
    options.season.to = model::Date{2026, 8, 12};
    options.season.step_s = 7200.0;
    options.draws = 6;
    options.seed = seed;
    const solver::SeasonSpread spread = solver::season_spread_of(farm, options);
    INFO("seed " << seed);
    if (!spread.answer.converged) {
      continue;
    }
    draws += spread.draws;
    unsolved += spread.unsolved;
    for (const solver::TroughSpread& trough : spread.troughs) {
      CHECK(is_in_order(trough.got_m3));
      CHECK(is_in_order(trough.dry_h));
      CHECK((!trough.met || is_in_order(*trough.met)));
      CHECK(is_chance(trough.chance_short.value_or(0.0)));
      CHECK(trough.first_short.early.has_value() == (trough.chance_short.value_or(0.0) > 0.0));
      CHECK((!trough.first_short.late || trough.chance_short == 1.0));
      CHECK(
          (!trough.first_short.likely || *trough.first_short.early <= *trough.first_short.likely));
      CHECK((!trough.first_short.late || *trough.first_short.likely <= *trough.first_short.late));
    }
    for (const auto* stores : {&spread.tanks, &spread.ponds}) {
      for (const solver::StoreSpread& store : *stores) {
        CHECK(is_in_order(store.lowest_m));
        CHECK(is_chance(store.chance_empty));
      }
    }
    if (seed % 6 == 0) {
      options.threads = 1;
      const solver::SeasonSpread again = solver::season_spread_of(farm, options);
      for (std::size_t i = 0; i < spread.troughs.size(); ++i) {
        CHECK(spread.troughs[i].got_m3.likely == again.troughs[i].got_m3.likely);
        CHECK(spread.troughs[i].dry_h.high == again.troughs[i].dry_h.high);
      }
    }
  }
  CHECK(draws > 0);
  CHECK(unsolved == 0);
}

}  // namespace leat::tests
