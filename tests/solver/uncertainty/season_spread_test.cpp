// How sure a season is: against closed forms, and against the same season run by itself.
#include "solver/uncertainty/season_spread.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/network/farm_stores.h"
#include "solver/uncertainty/measurement_error.h"
#include "solver/uncertainty/sampled_farm.h"
#include "tests/support/farm_text.h"

namespace leat::solver {

namespace {

constexpr model::Date first_day{2026, 7, 1};

/// A spring that runs into a tank, the tank to three troughs: one that has plenty, one about level
/// with the tank, one above all water.
const char* const hill = R"(
farm: Hill
site: {altitude: 300 m}
springs:
  spring: {overflow: 110 m, intake: 109.5 m, yield: 1 L/min}
tanks:
  tank: {floor: 104 m, full: 1.5 m, diameter: 1 m, intake: 104.1 m}
tees:
  tee: 99 m
troughs:
  low: {float: 98 m, need: 200 L/day, drinks: ["6:00-9:00"], holds: 200 L}
  near: {float: 103.9 m, need: 1400 L/day, drinks: ["6:00-9:00"], seat: 6 mm}
  high: {float: 130 m, need: 100 L/day}
pipes:
  spring line: {from: spring, to: tank, size: 25 mm PE100 SDR 11, length: 60 m}
  main: {from: tank, to: tee, size: 32 mm PE100 SDR 11, length: 200 m}
  to low: {from: tee, to: low, size: 25 mm PE100 SDR 11, length: 50 m}
  to near: {from: tee, to: near, size: 25 mm PE100 SDR 11, length: 50 m}
  to high: {from: tee, to: high, size: 25 mm PE100 SDR 11, length: 50 m}
)";

SeasonSpreadOptions options_of(int draws, int days = 5, std::uint64_t seed = 1) {
  SeasonSpreadOptions options;
  options.season.from = first_day;
  options.season.to = model::date_of_day(model::day_number(first_day) + days - 1);
  options.draws = draws;
  options.seed = seed;
  return options;
}

/// Every figure of a spread, in one row.
std::vector<double> figures_of(const SeasonSpread& spread) {
  std::vector<double> all{static_cast<double>(spread.draws), static_cast<double>(spread.unsolved)};
  const auto put = [&](const LowLikelyHigh& range) {
    all.insert(all.end(), {range.low, range.likely, range.high});
  };
  const auto put_day = [&](const std::optional<model::Date>& day) {
    all.push_back(day ? model::day_number(*day) : -1.0);
  };
  for (const TroughSpread& trough : spread.troughs) {
    put(trough.got_m3);
    put(trough.dry_h);
    if (trough.met) {
      put(*trough.met);
    }
    all.push_back(trough.chance_short.value_or(-1.0));
    put_day(trough.first_short.early);
    put_day(trough.first_short.likely);
    put_day(trough.first_short.late);
  }
  for (const auto* stores : {&spread.tanks, &spread.ponds}) {
    for (const StoreSpread& store : *stores) {
      put(store.lowest_m);
      all.push_back(store.chance_empty);
      put_day(store.filled.early);
      put_day(store.filled.late);
    }
  }
  for (const SummitSpread& summit : spread.summits) {
    all.push_back(summit.chance_parts);
  }
  for (const BreakSpread& line : spread.breaks) {
    all.push_back(line.chance_breaks);
  }
  for (const Cause& cause : spread.causes) {
    all.push_back(cause.share);
  }
  return all;
}

const TroughSpread& trough_named(const model::Farm& farm,
                                 const SeasonSpread& spread,
                                 const std::string& name) {
  const auto found =
      std::find_if(spread.troughs.begin(), spread.troughs.end(), [&](const TroughSpread& trough) {
        return farm.places[trough.place].name == name;
      });
  REQUIRE(found != spread.troughs.end());
  return *found;
}

double got_m3(const TroughSeason& trough) {
  double sum = 0.0;
  for (const MonthAtTrough& month : trough.months) {
    sum += month.got_m3;
  }
  return sum;
}

}  // namespace

TEST_CASE("The same seed gives the same seasons on one thread and on seven", "[spread][season]") {
  const model::Farm farm = tests::farm_of(hill);
  SeasonSpreadOptions options = options_of(12);
  options.threads = 1;
  const SeasonSpread one = season_spread_of(farm, options);
  options.threads = 7;
  const SeasonSpread many = season_spread_of(farm, options);
  options.seed = 2;
  const SeasonSpread other = season_spread_of(farm, options);
  REQUIRE(one.draws == 12);
  CHECK(figures_of(one) == figures_of(many));
  CHECK(figures_of(one) != figures_of(other));
}

TEST_CASE("A draw's season is the season of the drawn farm run by itself", "[spread][season]") {
  const model::Farm farm = tests::farm_of(hill);
  const std::vector<UncertainInput> inputs = season_inputs(farm, model::Month::Jul);
  // Of three draws the likely one is the one in the middle.
  const SeasonSpreadOptions options = options_of(3, 4, 11);
  const SeasonSpread spread = season_spread_of(farm, options);
  std::vector<SeasonAnswer> alone;
  for (std::uint64_t draw = 0; draw < 3; ++draw) {
    alone.push_back(run_season(drawn_farm(farm, inputs, 11, draw), options.season));
    REQUIRE(alone.back().converged);
  }
  for (std::size_t i = 0; i < spread.troughs.size(); ++i) {
    std::vector<double> got;
    for (const SeasonAnswer& answer : alone) {
      got.push_back(got_m3(answer.troughs[i]));
    }
    std::sort(got.begin(), got.end());
    CHECK(spread.troughs[i].got_m3.likely == got[1]);
    CHECK(spread.troughs[i].got_m3.low >= got[0]);
    CHECK(spread.troughs[i].got_m3.high <= got[2]);
  }
}

TEST_CASE("Without errors the low and the high season are the season itself", "[spread][season]") {
  const model::Farm farm = tests::farm_of(hill);
  std::vector<UncertainInput> inputs = season_inputs(farm, model::Month::Jul);
  for (UncertainInput& input : inputs) {
    input.deviation = 0.0;
  }
  const SeasonSpread spread = season_spread_of(farm, options_of(3), inputs);
  REQUIRE(spread.answer.converged);
  for (std::size_t i = 0; i < spread.troughs.size(); ++i) {
    const TroughSeason& plain = spread.answer.troughs[i];
    const TroughSpread& trough = spread.troughs[i];
    CHECK(trough.got_m3.low == Approx(got_m3(plain)).epsilon(1e-9));
    CHECK(trough.got_m3.high == Approx(got_m3(plain)).epsilon(1e-9));
    CHECK(trough.chance_short == (plain.first_dry ? 1.0 : 0.0));
    CHECK(trough.first_short.early == plain.first_dry);
    CHECK(trough.first_short.late == plain.first_dry);
  }
  CHECK(spread.tanks[0].lowest_m.low == Approx(spread.answer.tanks[0].lowest_m));
  CHECK(spread.tanks[0].lowest_m.high == Approx(spread.answer.tanks[0].lowest_m));
  CHECK(spread.causes.empty());
  CHECK(spread.explained.what == ExplainedSpread::What::Nothing);
}

TEST_CASE("A trough above all water is short in every season, one with plenty in none",
          "[spread][season]") {
  const model::Farm farm = tests::farm_of(hill);
  const SeasonSpread spread = season_spread_of(farm, options_of(15));
  const TroughSpread& high = trough_named(farm, spread, "high");
  CHECK(high.chance_short == 1.0);
  CHECK(high.got_m3.high == Approx(0.0).margin(1e-9));
  CHECK(high.first_short.early == first_day);
  CHECK(high.first_short.late == first_day);
  CHECK(high.dry_h.low == Approx(5.0 * 24.0));
  const TroughSpread& low = trough_named(farm, spread, "low");
  CHECK(low.chance_short == 0.0);
  CHECK_FALSE(low.first_short.early.has_value());
  CHECK(low.met->low >= 0.995);
  CHECK(low.got_m3.low < low.got_m3.high);  // stock may drink more or less than reckoned
}

TEST_CASE("A trough that lives on one spring is as unsure as the need and the yield",
          "[spread][season]") {
  // Closed form: it gets the yield, so met is yield over need; ln met varies by ln 1.30 / 1.96 of
  // the need and 0.032 of the yield, and the need makes 0.0179 / (0.0179 + 0.0010) = 95 % of it.
  const model::Farm farm = tests::farm_of(R"(
farm: One spring
springs:
  spring: {overflow: 110 m, intake: 109.5 m, yield: 1 L/min}
troughs:
  trough: {float: 90 m, need: 4320 L/day}
pipes:
  line: {from: spring, to: trough, size: 25 mm PE100 SDR 11, length: 60 m}
)");
  SeasonSpreadOptions options = options_of(300, 1);
  options.season.step_s = 21600.0;
  const SeasonSpread spread = season_spread_of(farm, options);
  const TroughSpread& trough = spread.troughs[0];
  CHECK(trough.chance_short == 1.0);
  CHECK(trough.got_m3.likely == Approx(1.440).epsilon(0.01));
  CHECK(trough.got_m3.high / trough.got_m3.low ==
        Approx(std::exp(2.0 * 1.645 * plain_flow_share)).epsilon(0.02));
  CHECK(trough.met->likely == Approx(1.0 / 3.0).epsilon(0.02));
  const double deviation = std::hypot(std::log(1.30) / half_width_95, plain_flow_share);
  CHECK(std::log(trough.met->high / trough.met->low) ==
        Approx(2.0 * 1.645 * deviation).epsilon(0.08));
  REQUIRE(!spread.causes.empty());
  CHECK(spread.explained.what == ExplainedSpread::What::NeedMet);
  CHECK(spread.causes[0].input == "need of trough");
  CHECK(spread.causes[0].share == Approx(0.946).margin(0.04));
}

TEST_CASE("What an outlet has to spare in one month makes up for no other", "[spread][season]") {
  const model::Farm farm = tests::farm_of(R"(
farm: Wet and dry
springs:
  spring: {overflow: 110 m, intake: 109.5 m, yield: {Jun: 40 L/min, Jul: 1 L/min, Aug: 1 L/min}}
outlets:
  tap: {level: 90 m, wished: 5 L/min}
pipes:
  line: {from: spring, to: tap, size: 25 mm PE100 SDR 11, length: 100 m}
)");
  // June brings more than the summer wants, August a fifth of what it wants.
  SeasonSpreadOptions options = options_of(8);
  options.season.from = model::Date{2026, 6, 1};
  options.season.to = model::Date{2026, 8, 31};
  options.season.step_s = 21600.0;
  const SeasonSpread spread = season_spread_of(farm, options);
  REQUIRE(spread.answer.converged);
  const TroughSpread& tap = spread.troughs[0];
  double met = 0.0;
  double need_m3 = 0.0;
  for (const MonthAtTrough& month : spread.answer.troughs[0].months) {
    met += month.met.value_or(0.0) * month.need_m3;
    need_m3 += month.need_m3;
  }
  met /= need_m3;
  CHECK(tap.chance_short == 1.0);
  CHECK(tap.got_m3.low > need_m3);
  CHECK(met < 0.99);
  CHECK(tap.met->low <= met);
  CHECK(tap.met->high >= met);
  CHECK(tap.met->high < 0.99);
}

TEST_CASE("A tank's lowest level is read off its own wall", "[spread][season]") {
  // A phone is off by metres; a tank that stays full stays full at whatever level it stands.
  const model::Farm farm = tests::farm_of(R"(
farm: Full tank
surveyed with: phone
springs:
  spring: {overflow: 200 m, intake: 199.5 m, yield: 10 L/min}
tanks:
  tank: {floor: 104 m, full: 1.5 m, diameter: 2 m}
pipes:
  line: {from: spring, to: tank, size: 25 mm PE100 SDR 11, length: 200 m}
)");
  const SeasonSpread spread = season_spread_of(farm, options_of(12));
  REQUIRE(spread.tanks.size() == 1);
  CHECK(spread.tanks[0].lowest_m.low == Approx(105.5).margin(1e-3));
  CHECK(spread.tanks[0].lowest_m.high == Approx(105.5).margin(1e-3));
  CHECK(spread.tanks[0].chance_empty == 0.0);
}

TEST_CASE("A pond fills earlier or later as the spring is measured", "[spread][season]") {
  // Closed form: 100 m3 at 10 L/min take 6.94 days; 1.645 standard errors of 3.2 % are 5.3 %, so
  // that it takes 6.6 to 7.3 days and is full on the 7th or the 8th day.
  const model::Farm farm = tests::farm_of(R"(
farm: Filling
springs:
  spring: {overflow: 200 m, intake: 199.5 m, yield: 10 L/min}
ponds:
  pond: {surface: 100 m, spills: 101 m, shape: [[99 m, 100 m2], [102 m, 100 m2]]}
pipes:
  line: {from: spring, to: pond, size: 32 mm PE100 SDR 11, length: 200 m, ends: 103 m}
)");
  const SeasonSpread spread = season_spread_of(farm, options_of(40, 10));
  REQUIRE(spread.ponds.size() == 1);
  CHECK(spread.ponds[0].filled.early == model::Date{2026, 7, 7});
  CHECK(spread.ponds[0].filled.likely == model::Date{2026, 7, 7});
  CHECK(spread.ponds[0].filled.late == model::Date{2026, 7, 8});
  CHECK(spread.ponds[0].chance_empty == 0.0);
  const SeasonSpread short_season = season_spread_of(farm, options_of(10, 3));
  CHECK_FALSE(short_season.ponds[0].filled.early.has_value());
}

TEST_CASE("A tank that is drawn from and fed by nothing runs empty in every season",
          "[spread][season]") {
  const model::Farm farm = tests::farm_of(R"(
farm: Draining
tanks:
  tank: {floor: 104 m, full: 1 m, diameter: 1 m}
troughs:
  trough: {float: 90 m, need: 2000 L/day}
pipes:
  line: {from: tank, to: trough, size: 25 mm PE100 SDR 11, length: 60 m}
)");
  const SeasonSpread spread = season_spread_of(farm, options_of(12));
  CHECK(spread.tanks[0].chance_empty == 1.0);
  CHECK(spread.troughs[0].chance_short == 1.0);
  // It holds 785 L: short on the first day in every draw in which stock drink more than that.
  CHECK(spread.troughs[0].first_short.early == first_day);
}

TEST_CASE("A pond drawn higher holds what it held, its table of levels with it",
          "[spread][season]") {
  const model::Farm farm = tests::farm_of(R"(
farm: Tabled pond
ponds:
  pond:
    surface: 100 m
    spills: 100.2 m
    shape: [[98 m, 50 m2], [100.2 m, 120 m2]]
    stock drink here: {dry beef cow: 10}
  other: {surface: 90 m}
pipes:
  line: {from: pond, to: other, size: 25 mm PE100 SDR 11, length: 60 m}
)");
  const std::vector<UncertainInput> inputs = season_inputs(farm, model::Month::Jul);
  std::vector<solver::StoreNote> notes;
  const FarmStores written(farm, first_day, notes);
  const StoreLaw& law = written.laws()[0];
  for (std::uint64_t draw = 0; draw < 20; ++draw) {
    const model::Farm drawn = drawn_farm(farm, inputs, 1, draw);
    const FarmStores stores(drawn, first_day, notes);
    const StoreLaw& drawn_law = stores.laws()[0];
    CHECK(drawn_law.start_m != law.start_m);
    CHECK(drawn_law.at(drawn_law.start_m).volume_m3 ==
          Approx(law.at(law.start_m).volume_m3).epsilon(1e-9));
    CHECK(drawn_law.brim_m - drawn_law.start_m == Approx(0.2));
  }
  SECTION("What drinks from the pond itself is drawn too, behind all that a moment draws") {
    const std::vector<UncertainInput> moment = uncertain_inputs(farm, model::Month::Jul);
    REQUIRE(inputs.size() == moment.size() + 1);
    CHECK(inputs.back().name == "need of pond");
    CHECK(inputs.back().deviation == Approx(std::log(1.30) / half_width_95));
    for (std::size_t i = 0; i < moment.size(); ++i) {
      CHECK(inputs[i].name == moment[i].name);
    }
    const auto heads = [](const model::Farm& of) {
      return std::get<model::Pond>(of.places[0].data).stock.herd[0].heads.by_month[6];
    };
    CHECK(heads(drawn_farm(farm, inputs, 1, 1)) != heads(farm));
  }
}

TEST_CASE("A summit near the vapour limit parts in some seasons", "[spread][season]") {
  const auto siphon = [](const char* summit) {
    return tests::farm_of(std::string(R"(
farm: Siphon
creeks:
  creek: {surface: 100 m}
ponds:
  pond: {surface: 97 m}
pipes:
  siphon:
    from: creek
    to: pond
    size: 32 mm PE100 SDR 11
    path: [[0 m, 99.5 m], [40 m, )") +
                          summit + " m], [80 m, 97 m]]\n");
  };
  const SeasonSpread low = season_spread_of(siphon("102"), options_of(30, 1));
  const SeasonSpread near = season_spread_of(siphon("108.6"), options_of(30, 1));
  REQUIRE(low.summits.size() == 1);
  CHECK(low.summits[0].chance_parts == 0.0);
  REQUIRE(near.summits.size() == 1);
  CHECK(near.summits[0].at_m == 40.0);
  CHECK(near.summits[0].chance_parts > 0.0);
  CHECK(near.summits[0].chance_parts < 1.0);
}

TEST_CASE("A line that draws its spring down over a rise breaks in every season",
          "[spread][season]") {
  const model::Farm farm = tests::farm_of(R"(
farm: Breaking
springs:
  spring: {overflow: 100.3 m, intake: 100 m, yield: 1 L/min}
ponds:
  pond: {surface: 90 m}
pipes:
  siphon:
    from: spring
    to: pond
    size: 32 mm PE100 SDR 11
    path: [[0 m, 100 m], [20 m, 102 m], [60 m, 90 m]]
)");
  const SeasonSpread spread = season_spread_of(farm, options_of(10, 2));
  REQUIRE(!spread.answer.broken.empty());
  REQUIRE(spread.breaks.size() == 1);
  CHECK(spread.breaks[0].pipe == 0);
  CHECK(spread.breaks[0].chance_breaks == 1.0);
}

TEST_CASE("A season that is stopped has no spread and says so", "[spread][season]") {
  const model::Farm farm = tests::farm_of(hill);
  double last = 0.0;
  bool rises = true;
  const SeasonSpread whole = season_spread_of(farm, options_of(6), [&](double share) {
    rises = rises && share >= last;
    last = share;
    return true;
  });
  CHECK(whole.answer.converged);
  CHECK(rises);
  CHECK(last <= 1.0);
  for (const double until : {0.05, 0.5}) {  // in the season as written, and among the draws
    SeasonSpreadOptions options = options_of(6);
    options.threads = 1;  // with more the thread that is asked may have nothing left to do
    const SeasonSpread stopped =
        season_spread_of(farm, options, [&](double share) { return share < until; });
    CHECK_FALSE(stopped.answer.converged);
    REQUIRE(stopped.answer.problems.size() == 1);
    CHECK(std::holds_alternative<solver::SeasonStopped>(stopped.answer.problems[0]));
    CHECK(stopped.troughs.empty());
    CHECK(stopped.draws == 0);
  }
}

}  // namespace leat::solver
