// A season on small farms, against closed forms and common sense.
#include "solver/season/season.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "solver/network/farm_stores.h"
#include "solver/season/season_clock.h"
#include "solver/season/season_steps.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

using solver::SeasonAnswer;

namespace {

SeasonAnswer season(const model::Farm& farm,
                    model::Date from,
                    model::Date to,
                    double step_s = 3600.0) {
  solver::SeasonOptions options;
  options.from = from;
  options.to = to;
  options.step_s = step_s;
  return run_season(farm, options);
}

/// Douglas' tank with an area of its own: through its pipe it falls from 3.5 to 2.25 m.
std::string douglas_tank(double area_m2) {
  return fmt::format(R"(
farm: Douglas 14.9
tanks:
  tank: {{floor: 0 m, full: 3.5 m, area: {} m2}}
outlets:
  end: {{level: 0 m}}
pipes:
  drain: {{from: tank, to: end, length: 1.5 m, size: {{bore: 20 mm, friction factor: 0.04}}, entrance: 0.9, exit: 1}}
)",
                     area_m2);
}

const solver::Finding* flag_of(const SeasonAnswer& answer,
                               solver::Code code,
                               const std::string& where) {
  for (const solver::Finding& flag : answer.flags) {
    if (flag.code == code && flag.where == where) {
      return &flag;
    }
  }
  return nullptr;
}

}  // namespace

TEST_CASE("Douglas' tank falls from 3.5 to 2.25 m in 7078.70 s", "[season]") {
  // Reference E3.5 (Douglas, Gasiorek and Swaffield, example 14.9; g = 9.81).
  const model::Farm farm = farm_of(douglas_tank(6.0));
  std::vector<solver::StoreNote> notes;
  const model::Date day{2026, 6, 1};
  const solver::FarmStores stores(farm, day, notes);
  solver::SeasonSteps steps(farm, stores);
  steps.begin_day(solver::day_values(farm, day));
  solver::StepWishes wishes{std::vector<double>(2, 0.0), std::vector<double>(2, 0.0), {}};
  solver::StepWater water;
  water.places.resize(2);
  double time_s = 0.0;
  double before_m = 3.5;
  constexpr double step_s = 5.0;
  while (steps.levels_m()[0] > 2.25) {
    before_m = steps.levels_m()[0];
    REQUIRE(steps.advance(wishes, step_s, water));
    time_s += step_s;
  }
  const double over = (2.25 - steps.levels_m()[0]) / (before_m - steps.levels_m()[0]);
  CHECK(time_s - over * step_s == Approx(7078.70).epsilon(1e-3));
}

TEST_CASE("a tank that empties as a square root errs half as much with half the step", "[season]") {
  // The same tank so wide that the fall takes just a day: closed form, g = 9.80665.
  const double area_m2 = 6.0 * 86400.0 / (7078.70 * std::sqrt(9.81 / 9.80665));
  const model::Farm farm = farm_of(douglas_tank(area_m2));
  const auto error = [&](double step_s) {
    const SeasonAnswer answer = season(farm, {2026, 6, 1}, {2026, 6, 2}, step_s);
    REQUIRE(answer.converged);
    return answer.tanks.at(0).levels.at(1).level_m - 2.25;
  };
  const double coarse = error(7200.0);
  const double fine = error(3600.0);
  const double finest = error(1800.0);
  CHECK(std::abs(finest) < 0.005);
  CHECK(fine / coarse == Approx(0.5).margin(0.05));
  CHECK(finest / fine == Approx(0.5).margin(0.05));
}

TEST_CASE("a pond rises by what comes and falls by what seeps, and runs over at its spill level",
          "[season]") {
  const model::Farm farm = farm_of(R"(
farm: pond
springs:
  spring: {overflow: 30 m, yield: 0.1 L/s}
ponds:
  pond: {surface: 10 m, spills: 10.5 m, seepage: 4 mm/day, shape: [[8 m, 200 m2], [11 m, 200 m2]]}
pipes:
  fill: {from: spring, to: pond, size: 1 in SIDR 15, length: 100 m, ends: 10.6 m}
)");
  const SeasonAnswer answer = season(farm, {2026, 6, 1}, {2026, 6, 30});
  REQUIRE(answer.converged);
  const solver::PondSeason& pond = answer.ponds.at(0);
  // 8.64 m3 come a day, 0.8 seep: 39.2 mm a day, the 0.5 m are full on the thirteenth day.
  CHECK(pond.levels.at(5).level_m == Approx(10.0 + 5 * 0.0392).epsilon(1e-6));
  REQUIRE(pond.filled_on.has_value());
  CHECK(*pond.filled_on == model::Date{2026, 6, 13});
  CHECK(pond.fill_m3 == Approx(30 * 8.64).epsilon(1e-6));
  CHECK(pond.seepage_m3 == Approx(30 * 0.8).epsilon(1e-6));
  CHECK(pond.spilled_m3 == Approx(30 * 7.84 - 100.0).epsilon(1e-3));
  CHECK(std::abs(answer.balance.error_m3) < 1e-6 * answer.balance.moved_m3);
}

TEST_CASE("the high trough works in the morning and is dry by the afternoon", "[season]") {
  const model::Farm farm = farm_of(R"(
farm: high trough
springs:
  spring: {overflow: 40 m, yield: 1.5 L/min}
tees:
  fork: 10 m
troughs:
  high: {float: 30 m, need: 1400 L/day, drinks: [6:00-20:00], seat: 8 mm, holds: 900 L}
  low: {float: 12 m, need: 1150 L/day, drinks: [6:00-20:00], seat: 8 mm, holds: 100 L}
pipes:
  main: {from: spring, to: fork, size: 1 in SIDR 15, length: 200 m}
  to high: {from: fork, to: high, size: 3/4 in SIDR 15, length: 60 m}
  to low: {from: fork, to: low, size: 3/4 in SIDR 15, length: 60 m}
)");
  const SeasonAnswer answer = season(farm, {2026, 8, 1}, {2026, 8, 31});
  REQUIRE(answer.converged);
  const solver::TroughSeason& high = answer.troughs.at(0);
  const solver::TroughSeason& low = answer.troughs.at(1);
  CHECK(low.months.at(0).met.value() > 0.995);
  CHECK(high.months.at(0).met.value() < 0.9);
  REQUIRE(high.met_by_hour.size() == 1);
  CHECK(high.met_by_hour[0][7] > 0.99);
  CHECK(high.met_by_hour[0][19] < 0.2);
  CHECK(high.first_dry == model::Date{2026, 8, 1});
  CHECK(high.months.at(0).reason.has_value());
  CHECK(flag_of(answer, solver::Code::Starved, "high") != nullptr);
  CHECK(flag_of(answer, solver::Code::Starved, "low") == nullptr);
  // Dry hours are unmet volume over the need's rate.
  const solver::MonthAtTrough& month = high.months.at(0);
  CHECK(month.dry_h == Approx((month.need_m3 - month.got_m3) / 0.1).epsilon(1e-6));
  // With steps above a quarter of the fourteen hours nothing is said of hours.
  const SeasonAnswer coarse = season(farm, {2026, 8, 1}, {2026, 8, 31}, 21600.0);
  CHECK(coarse.troughs.at(0).met_by_hour.empty());
  CHECK(coarse.troughs.at(0).met_by_hour.empty());
}

TEST_CASE("a season in which nothing changes gives each trough what steady flow gives",
          "[season]") {
  const SolvedFarm steady = solved(R"(
farm: steady
springs:
  spring: {overflow: 40 m, yield: 6 L/min}
tees:
  fork: 10 m
troughs:
  high: {float: 30 m, need: 4 L/min, seat: 8 mm, holds: 200 L}
  low: {float: 12 m, need: 3 L/min, seat: 8 mm}
pipes:
  main: {from: spring, to: fork, size: 1 in SIDR 15, length: 200 m}
  to high: {from: fork, to: high, size: 3/4 in SIDR 15, length: 60 m}
  to low: {from: fork, to: low, size: 3/4 in SIDR 15, length: 60 m}
)");
  // The trough's 200 L are gone within the first days; the second month is steady.
  const SeasonAnswer answer = season(steady.farm, {2026, 6, 1}, {2026, 7, 31});
  REQUIRE(answer.converged);
  const double july_s = 31.0 * 86400.0;
  CHECK(answer.troughs.at(0).months.at(1).got_m3 / july_s ==
        Approx(steady.place("high").delivered_m3_s).epsilon(1e-6));
  CHECK(answer.troughs.at(1).months.at(1).got_m3 / july_s ==
        Approx(steady.place("low").delivered_m3_s).epsilon(1e-6));
}

TEST_CASE("a siphon that breaks in the dry month stays broken until the end", "[season]") {
  const model::Farm farm = farm_of(R"(
farm: siphon
springs:
  spring: {overflow: 100 m, intake: 99.7 m, yield: {Jan: 20 L/min, Jun: 20 L/min, Aug: 2 L/min, Dec: 20 L/min}}
outlets:
  garden: {level: 96 m, wished: 1 L/min}
pipes:
  over: {from: spring, to: garden, size: 3/4 in SIDR 15, length: 150 m, path: [[0 m, 99.7 m], [20 m, 101 m], [140 m, 96 m]]}
)");
  const SeasonAnswer answer = season(farm, {2026, 1, 1}, {2026, 12, 31});
  REQUIRE(answer.converged);
  REQUIRE(answer.broken.size() == 1);
  CHECK((answer.broken[0].on > model::Date{2026, 6, 15}));
  CHECK((answer.broken[0].on < model::Date{2026, 7, 15}));
  CHECK(answer.troughs.at(0).months.at(11).got_m3 == Approx(0.0).margin(1e-9));
  const solver::SeasonReason reason = answer.troughs.at(0).months.at(11).reason.value();
  CHECK(std::get<solver::BrokenSiphon>(reason.moment.value()).pipe == "over");
  REQUIRE(flag_of(answer, solver::Code::Breaks, "spring") != nullptr);
  CHECK(flag_of(answer, solver::Code::Breaks, "spring")->severity == solver::Severity::Danger);
}

TEST_CASE("where a spring is dry all season the first month is told, and its reason once",
          "[season]") {
  const model::Farm farm = farm_of(
      "farm: parched\nsite: {water: 12 C}\n"
      "springs: {box: {overflow: 60 m, intake: 59.8 m, yield: 0 L/min}}\n"
      "troughs: {yard: {float: 30 m, need: 1440 L/day, seat: 12 mm}}\n"
      "pipes:\n  line: {from: box, to: yard, size: 1 in SIDR 15, length: 60 m}\n");
  solver::SeasonOptions options;
  options.from = model::Date{2026, 1, 1};
  options.to = model::Date{2026, 4, 30};
  const SeasonAnswer answer = run_season(farm, options);
  REQUIRE(answer.converged);
  const solver::SeasonReason reason = answer.troughs.at(0).months.at(1).reason.value();
  CHECK(reason.supply.value().springs == std::vector<std::string>{"box"});
  CHECK(reason.supply->given_m3_day == 0.0);
  CHECK(reason.supply->wanted_m3_day == Approx(1.44));
  CHECK_FALSE(reason.moment.has_value());
  const auto dry = std::find_if(answer.flags.begin(), answer.flags.end(), [](const auto& flag) {
    return flag.code == solver::Code::Dry;
  });
  REQUIRE(dry != answer.flags.end());
  CHECK(dry->where == "yard");
  const auto told = std::get<solver::ShortInMonth>(dry->detail);
  CHECK(told.month == model::Month::Jan);
  CHECK(told.year == 2026);
}

TEST_CASE("a float that breaks lets the water run to waste from its day on", "[season]") {
  const model::Farm farm = farm_of(R"(
farm: broken float
springs:
  spring: {overflow: 40 m, yield: 10 L/min}
tees:
  fork: 10 m
troughs:
  north: {float: 12 m, need: 400 L/day, seat: 8 mm, holds: 200 L}
  south: {float: 30 m, need: 400 L/day, seat: 8 mm}
pipes:
  main: {from: spring, to: fork, size: 1 in SIDR 15, length: 200 m}
  to north: {from: fork, to: north, size: 3/4 in SIDR 15, length: 60 m}
  to south: {from: fork, to: south, size: 3/4 in SIDR 15, length: 60 m}
breaks: {north: 2026-08-10}
)");
  const SeasonAnswer answer = season(farm, {2026, 8, 1}, {2026, 8, 31});
  REQUIRE(answer.converged);
  CHECK(answer.troughs.at(1).first_dry == model::Date{2026, 8, 10});
  CHECK(answer.troughs.at(0).months.at(0).met.value() > 0.999);
  // 22 days of all that the spring yields, less what north drinks and its freeboard.
  CHECK(answer.balance.spilled_m3 == Approx(22 * (14.4 - 0.4)).epsilon(0.01));
  REQUIRE(flag_of(answer, solver::Code::Spills, "north") != nullptr);
  CHECK(std::get<solver::RunsOver>(flag_of(answer, solver::Code::Spills, "north")->detail)
            .float_hangs_from == model::Date{2026, 8, 10});
}

TEST_CASE("as a spring falls the troughs go short from the highest down", "[season]") {
  const model::Farm farm = farm_of(R"(
farm: falling
springs:
  spring: {overflow: 40 m, yield: 20 L/min}
tees:
  fork: 10 m
troughs:
  high: {float: 30 m, need: 6 L/min}
  low: {float: 12 m, need: 3 L/min}
pipes:
  main: {from: spring, to: fork, size: 1 in SIDR 15, length: 200 m}
  to high: {from: fork, to: high, size: 3/4 in SIDR 15, length: 60 m}
  to low: {from: fork, to: low, size: 3/4 in SIDR 15, length: 60 m}
)");
  solver::SeasonOptions options;
  options.from = model::Date{2026, 6, 1};
  options.to = model::Date{2026, 6, 2};
  options.until_dry = "spring";
  const SeasonAnswer answer = run_season(farm, options);
  REQUIRE(answer.first_short.size() == 2);
  CHECK(farm.places[answer.first_short[0].place].name == "high");
  // Short is less than 0.995 of the need: high has what low leaves.
  CHECK(answer.first_short[0].yield_m3_s * 6e4 == Approx(3.0 + 0.995 * 6.0).epsilon(1e-4));
  CHECK(answer.first_short[1].yield_m3_s * 6e4 == Approx(0.995 * 3.0).epsilon(1e-4));
  options.until_dry = "sprong";
  const SeasonAnswer refused = run_season(farm, options);
  REQUIRE(refused.problems.size() == 1);
  const auto unknown = std::get<solver::UnknownSpring>(refused.problems[0]);
  CHECK(unknown.name == "sprong");
  CHECK(unknown.springs == std::vector<std::string>{"spring"});
}

TEST_CASE("a full tank carries the farm for what it holds over what is drawn a day", "[season]") {
  const model::Farm farm = farm_of(R"(
farm: tank
springs:
  spring: {overflow: 40 m, yield: 10 L/min}
tanks:
  tank: {floor: 30 m, full: 2 m, area: 3 m2}
troughs:
  trough: {float: 20 m, need: 1200 L/day, seat: 8 mm, holds: 200 L}
pipes:
  main: {from: spring, to: tank, size: 1 in SIDR 15, length: 200 m}
  down: {from: tank, to: trough, size: 3/4 in SIDR 15, length: 60 m}
)");
  const SeasonAnswer answer = season(farm, {2026, 6, 1}, {2026, 6, 30});
  REQUIRE(answer.converged);
  CHECK(answer.tanks.at(0).days_alone.value() == Approx(6.0 / 1.2).epsilon(0.01));
  CHECK(answer.tanks.at(0).levels.size() == 30);
}

TEST_CASE("what no season can be run with is refused", "[season]") {
  const model::Farm farm = farm_of(douglas_tank(6.0));
  const auto refused = [&](model::Date from, model::Date to, double step_s) {
    const SeasonAnswer answer = season(farm, from, to, step_s);
    CHECK_FALSE(answer.converged);
    REQUIRE(answer.problems.size() == 1);
    return answer.problems[0];
  };
  using std::holds_alternative;
  CHECK(holds_alternative<solver::EndsBeforeItBegins>(refused({2026, 6, 2}, {2026, 6, 1}, 3600.0)));
  CHECK(holds_alternative<solver::StepOutOfRange>(refused({2026, 6, 1}, {2026, 6, 2}, 59.0)));
  CHECK(holds_alternative<solver::StepOutOfRange>(refused({2026, 6, 1}, {2026, 6, 2}, 604801.0)));
  CHECK(holds_alternative<solver::SeasonTooLong>(refused({2026, 6, 1}, {2077, 6, 2}, 3600.0)));
}

TEST_CASE("a pipe still to be sized is what the season lacks", "[season]") {
  const model::Farm farm = farm_of(R"(
farm: to size
springs: {box: {overflow: 60 m, yield: 5 L/min}}
troughs: {yard: {float: 30 m, need: 1440 L/day}}
pipes:
  line: {from: box, to: yard, size: choose, length: 60 m}
)");
  const SeasonAnswer answer = season(farm, {2026, 6, 1}, {2026, 6, 2});
  REQUIRE(answer.problems.size() == 1);
  CHECK(std::get<model::Diagnostic>(answer.problems[0]).text ==
        "size: choose on pipe 'line': there is no size to solve with");
}

TEST_CASE("that springs give too little is told once, be it one spring or two", "[season]") {
  const auto farm_with = [](const std::string& springs, const std::string& pipes) {
    return farm_of("farm: fork\nsite: {water: 12 C}\nsprings:\n" + springs +
                   "tees: {fork: 20 m}\n"
                   "troughs: {yard: {float: 10 m, need: 9000 L/day, seat: 12 mm}}\n"
                   "pipes:\n" +
                   pipes + "  down: {from: fork, to: yard, size: 1 in SIDR 15, length: 60 m}\n");
  };
  const std::string one = "  one: {overflow: 60 m, yield: 1 L/min}\n";
  const std::string two = "  two: {overflow: 60 m, yield: 1 L/min}\n";
  const std::string from_one = "  a: {from: one, to: fork, size: 1 in SIDR 15, length: 60 m}\n";
  const std::string from_two = "  b: {from: two, to: fork, size: 1 in SIDR 15, length: 60 m}\n";
  const auto reason_of = [](const model::Farm& farm) {
    const SeasonAnswer answer = season(farm, {2026, 6, 1}, {2026, 6, 30});
    REQUIRE(answer.converged);
    return answer.troughs.at(0).months.at(0).reason.value();
  };
  const solver::SeasonReason by_one = reason_of(farm_with(one, from_one));
  CHECK(by_one.supply.value().given_m3_day == Approx(1.44));
  CHECK_FALSE(by_one.moment.has_value());
  const solver::SeasonReason by_two = reason_of(farm_with(one + two, from_one + from_two));
  CHECK(by_two.supply.value().springs == std::vector<std::string>{"one", "two"});
  CHECK(by_two.supply->given_m3_day == Approx(2.88));
  CHECK(by_two.supply->wanted_m3_day == Approx(9.0));
  CHECK_FALSE(by_two.moment.has_value());
}

TEST_CASE("steps divide the day or take whole days, never over a month's end", "[season]") {
  CHECK(solver::days_from({2026, 6, 1}, {2026, 6, 30}, 3600.0).parts == 24);
  CHECK(solver::days_from({2026, 6, 1}, {2026, 6, 30}, 7.0 * 3600.0).parts == 4);
  CHECK(solver::days_from({2026, 6, 1}, {2026, 6, 30}, 604800.0).days == 7);
  CHECK(solver::days_from({2026, 6, 28}, {2026, 7, 30}, 604800.0).days == 3);
  CHECK(solver::days_from({2026, 6, 1}, {2026, 6, 3}, 604800.0).days == 3);
}

}  // namespace leat::tests
