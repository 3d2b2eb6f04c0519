// What a day brings to the places of a farm.
#include "solver/day/day_values.h"

#include <string>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

using solver::DayValues;

constexpr double gallon_m3 = 3.785411784e-3;
constexpr double litre_a_minute = 1e-3 / 60.0;

/// A farm of a spring, a creek, a dug pond, a trough and an outlet.
struct Written {
  std::string site = "{water: 10 C}";
  std::string weather = {};
  std::string yield = "6 L/min";
  std::string creek = {};
  std::string pond = {};
  std::string trough = "need: 500 L/day";
  std::string outlet = {};
};

model::Farm farm_with(const Written& written) {
  return farm_of("farm: days\nsite: " + written.site + "\n" +
                 (written.weather.empty() ? "" : "weather: " + written.weather + "\n") +
                 "springs: {up: {overflow: 100 m, yield: " + written.yield +
                 "}}\ncreeks: {ford: {surface: 95 m" + written.creek +
                 "}}\nponds: {dug: {surface: 80 m, shape: {top: 20 m x 20 m, depth: 2 m}" +
                 written.pond + "}}\ntees: {t: 85 m}\ntroughs: {low: {float: 80 m, " +
                 written.trough + "}}\noutlets: {garden: {level: 81 m" + written.outlet +
                 "}}\npipes:\n"
                 "  a: {from: up, to: t, size: 1 in SIDR 15, length: 60 m}\n"
                 "  b: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}\n"
                 "  c: {from: t, to: garden, size: 1 in SIDR 15, length: 60 m}\n"
                 "  d: {from: ford, to: dug, size: 1 in SIDR 15, length: 60 m}\n");
}

/// The places in the order of that file; the fourth is the tee.
enum Place { up, ford, dug, low = 4, garden };

const solver::PlaceDay& at(const DayValues& values, Place place) {
  return values.places.at(static_cast<std::size_t>(place));
}

double yield_l_min(const model::Farm& farm, model::Date date) {
  return *at(solver::day_values(farm, date), up).yield_m3_s / litre_a_minute;
}

TEST_CASE("each place has the values of its kind and no others") {
  const model::Farm farm =
      farm_with({.creek = ", flow: 9 L/min, spare: 3 L/min", .outlet = ", wished: 2 L/min"});
  const DayValues day = solver::day_values(farm, {2026, 5, 3});
  REQUIRE(day.places.size() == farm.places.size());
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const solver::PlaceDay& place = day.places[i];
    const std::string kind = model::kind_word(farm.places[i]);
    CAPTURE(kind);
    CHECK(place.yield_m3_s.has_value() == (kind == "spring"));
    CHECK(place.surface_m.has_value() == (kind == "creek"));
    CHECK(place.flow_m3_s.has_value() == (kind == "creek"));
    CHECK(place.spare_m3_s.has_value() == (kind == "creek"));
    CHECK(place.need_m3.has_value() == (kind == "trough"));
    CHECK(place.wished_m3_s.has_value() == (kind == "outlet"));
    CHECK(place.pond.has_value() == (kind == "pond"));
  }
  CHECK(day.water_C == 10.0);
  CHECK_FALSE(day.mean_air_C);
}

TEST_CASE("a yield by month is its own in mid-month and straight between") {
  // Hand arithmetic: noon of 16 January is the middle of January (15.5 days); that of February is
  // 45 days, of a leap year's February 45.5; 31 days lie between mid-December and mid-January.
  std::string yields = "{";
  for (std::size_t month = 0; month < 12; ++month) {
    yields += std::string(month == 0 ? "" : ", ") + std::string(model::month_names[month]) + ": " +
              std::to_string(10 + 2 * month) + " L/min";
  }
  const model::Farm farm = farm_with({.yield = yields + "}"});
  CHECK(yield_l_min(farm, {2026, 1, 16}) == Approx(10.0));
  CHECK(yield_l_min(farm, {2026, 7, 16}) == Approx(22.0));
  CHECK(yield_l_min(farm, {2026, 1, 26}) == Approx(10.0 + 2.0 * 10.0 / 29.5));
  CHECK(yield_l_min(farm, {2028, 1, 26}) == Approx(10.0 + 2.0 * 10.0 / 30.0));
  CHECK(yield_l_min(farm, {2026, 12, 31}) == Approx(32.0 - 22.0 * 15.0 / 31.0));
  CHECK(yield_l_min(farm, {2027, 1, 1}) == Approx(32.0 - 22.0 * 16.0 / 31.0));
}

TEST_CASE("a measured yield is straight between its dates and by months outside them") {
  // 2026-05-02 20 L/min, 2026-08-14 5 L/min: 104 days apart, so 12.5 after 52. Outside, each month
  // takes the lowest measured in it (5 and 20), April the lower of its neighbours.
  model::Farm farm = farm_with({});
  auto& spring = std::get<model::Spring>(farm.places[0].data);
  spring.yield_record = {{{2026, 5, 2}, cubic_metres_per_second(20 * litre_a_minute)},
                         {{2026, 8, 14}, cubic_metres_per_second(5 * litre_a_minute)}};
  spring.yield = model::MonthSeries<Flow>::constant(cubic_metres_per_second(5 * litre_a_minute));
  CHECK(yield_l_min(farm, {2026, 5, 2}) == Approx(20.0));
  CHECK(yield_l_min(farm, {2026, 6, 23}) == Approx(12.5));
  CHECK(yield_l_min(farm, {2026, 8, 14}) == Approx(5.0));
  CHECK(yield_l_min(farm, {2026, 5, 1}) == Approx(5.0));
  CHECK(yield_l_min(farm, {2027, 6, 23}) == Approx(5.0));
}

TEST_CASE("a creek's surface, flow and spare and the water's warmth follow the day") {
  const model::Farm farm = farm_with({.site = "{water: {Jan: 4 C, Jul: 16 C}}",
                                      .creek = ", flow: {Jan: 400 L/min, Jul: 60 L/min}, "
                                               "spare: {Jan: 40 L/min, Jul: 6 L/min}",
                                      .outlet = ", wished: {Jan: 1 L/min, Jul: 10 L/min}"});
  const DayValues day = solver::day_values(farm, {2026, 7, 16});
  CHECK(day.water_C == Approx(16.0));
  CHECK(*at(day, ford).surface_m == 95.0);
  CHECK(*at(day, ford).flow_m3_s == Approx(60.0 * litre_a_minute));
  CHECK(*at(day, ford).spare_m3_s == Approx(6.0 * litre_a_minute));
  CHECK(*at(day, garden).wished_m3_s == Approx(10.0 * litre_a_minute));
}

double need_gallons(const Written& written, model::Date date = {2026, 7, 16}) {
  const DayValues day = solver::day_values(farm_with(written), date);
  return at(day, low).need_m3.value_or(-gallon_m3) / gallon_m3;
}

TEST_CASE("a herd drinks by the air of the day", "[reference]") {
  // Reference I1: a dry beef cow drinks 6.0 gal at 40 F, 7.4 at 60 F, 10.8 at 70 F and 12.4 at 80 F
  // (KSU, NRC). 24 of them; 50 F is halfway: 6.7.
  const std::string herd = "herd: {dry beef cow: 24}";
  CHECK(need_gallons({.weather = "{tmin: 50 F, tmax: 70 F}", .trough = herd}) ==
        Approx(24 * 7.4).epsilon(1e-6));
  CHECK(need_gallons({.weather = "{tmin: 40 F, tmax: 60 F}", .trough = herd}) ==
        Approx(24 * 6.7).epsilon(1e-6));
  // Nothing known of the air: a summer day's amount, as `solve` takes it.
  CHECK(need_gallons({.trough = herd}) == Approx(24 * 12.4).epsilon(1e-6));
  CHECK(need_gallons({.weather = "{tmin: 50 F}", .trough = herd}) ==
        Approx(24 * 12.4).epsilon(1e-6));
}

TEST_CASE("a herd of one month grows into that of the next") {
  // Goats at 10 L: 20 in mid-January, 40 in mid-February, 29.5 days later.
  const std::string herd = "herd: {goat: {Jan: 20, Feb: 40}}";
  CHECK(need_gallons({.trough = herd}, {2026, 1, 16}) * gallon_m3 == Approx(0.2));
  CHECK(need_gallons({.trough = herd}, {2026, 1, 26}) * gallon_m3 ==
        Approx(0.2 + 0.2 * 10.0 / 29.5));
}

TEST_CASE("a need a day is that day's amount and a rate counts while stock drink") {
  CHECK(need_gallons({.trough = "need: 350 gal/day, within: 4 h"}) == Approx(350.0));
  CHECK(need_gallons({.trough = "need: 2 gal/min"}) == Approx(2880.0));
  CHECK(need_gallons({.trough = "need: 2 gal/min, drinks: [6:00-9:00, 18:00-20:00]"}) ==
        Approx(600.0));
  CHECK(need_gallons({.trough = "seat: 6 mm"}) == -1.0);
}

solver::PondDay pond_day(const model::Farm& farm, model::Date date) {
  return at(solver::day_values(farm, date), dug).pond.value();
}

TEST_CASE("a pond beside a pan loses seven tenths of the pan's depth", "[reference]") {
  // Reference J1: 8.0 mm/d of a Class A pan, coefficient 0.70, on 400 m2: 2.24 m3/d.
  const model::Farm farm = farm_with({.weather = "{evaporation: 8 mm/day, pan coefficient: 0.7}"});
  CHECK(pond_day(farm, {2026, 7, 3}).evaporation_m * 400.0 == Approx(2.24).epsilon(1e-9));
}

TEST_CASE("a pond whose bed lets 60 or 120 mm a day through is told, one that loses 20 mm is not") {
  const auto told = [](const std::string& written) {
    const model::Farm farm = farm_with({.pond = ", seepage: " + written});
    std::vector<solver::BedLoses> found;
    for (const solver::SeasonNote& note :
         solver::day_value_notes(farm, {2026, 7, 1}, {2026, 7, 31})) {
      if (const auto* loses = std::get_if<solver::BedLoses>(&note)) {
        found.push_back(*loses);
      }
    }
    return found;
  };
  // FAO's pond text (x6705e): tolerable below 5 cm a day, leaky from 10 cm.
  CHECK(told("20 mm/day").empty());
  CHECK(told("60 mm/day").at(0).a_day_m == Approx(0.060));
  CHECK_FALSE(told("60 mm/day").at(0).is_leak);
  CHECK(told("120 mm/day").at(0).a_day_m == Approx(0.120));
  CHECK(told("120 mm/day").at(0).is_leak);
}

TEST_CASE("a pond seeps by its rate or by the middle of its soil's range", "[reference]") {
  // Reference J3 (FAO training series): loam 8 to 20, clay 1.25 to 10 mm/day; geometric means
  // 12.649 and 3.5355. A quarter inch a day is the usual line in the trade.
  const auto seepage_mm = [](const std::string& written) {
    return pond_day(farm_with({.pond = ", seepage: " + written}), {2026, 7, 3}).seepage_m * 1e3;
  };
  CHECK(seepage_mm("loam") == Approx(12.649).epsilon(1e-4));
  CHECK(seepage_mm("clay") == Approx(3.5355).epsilon(1e-4));
  CHECK(seepage_mm("0.25 in/day") == Approx(6.35).epsilon(1e-9));
  CHECK(pond_day(farm_with({}), {2026, 7, 3}).seepage_m == 0.0);
}

TEST_CASE("stock that drink from the pond take their day's amount") {
  const model::Farm farm = farm_with({.pond = ", stock drink here: {goat: 30}"});
  CHECK(pond_day(farm, {2026, 7, 3}).stock_m3 == Approx(0.3));
}

TEST_CASE("one storm runs off as the curve number says", "[reference]") {
  // Reference J5 (TR-55): 3 in at CN 80 runs off 1.2500 in, on 10 acres 1.0417 acre-ft = 339 429
  // gal. One rain day in June: it falls on one day, the middle one.
  const model::Farm farm =
      farm_with({.weather = "{rain: {Jun: 3 in, Jul: 0 mm}, rain days: {Jun: 1, Jul: 0}}",
                 .pond = ", catchment: {area: 10 acre, curve number: 80}"});
  double june_m3 = 0.0;
  int days = 0;
  for (int day = 1; day <= 30; ++day) {
    const double runoff_m3 = pond_day(farm, {2026, 6, day}).runoff_m3;
    june_m3 += runoff_m3;
    days += runoff_m3 > 0.0 ? 1 : 0;
  }
  CHECK(days == 1);
  CHECK(june_m3 / gallon_m3 == Approx(339429.0).epsilon(1e-4));
  CHECK(pond_day(farm, {2026, 7, 16}).runoff_m3 == 0.0);
}

TEST_CASE("a pond without a shape has the surface written and no weather of its own") {
  const model::Farm farm = farm_of(
      "farm: f\nponds: {top: {surface: {Jan: 90 m, Jul: 88 m}, seepage: sand}, "
      "foot: {surface: 80 m}}\n"
      "pipes: {a: {from: top, to: foot, size: 1 in SIDR 15, length: 60 m}}\n");
  const DayValues day = solver::day_values(farm, {2026, 7, 16});
  CHECK(*day.places[0].surface_m == Approx(88.0));
  CHECK_FALSE(day.places[0].pond);
}

}  // namespace

}  // namespace leat::tests
