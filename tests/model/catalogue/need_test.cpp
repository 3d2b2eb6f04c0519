#include "model/catalogue/need.h"

#include <array>
#include <stdexcept>
#include <string>

#include <catch2/catch.hpp>

#include "model/quantity/quantity_text.h"

using namespace leat;         // NOLINT(google-build-using-namespace)
using namespace leat::model;  // NOLINT(google-build-using-namespace)

namespace {

MonthSeries<Heads> heads(double count) {
  return MonthSeries<Heads>::constant(Heads::from_si(count));
}

Trough herd_trough(const std::string& animal, double count, Duration within) {
  Trough trough;
  trough.need = HerdNeed{{{animal, heads(count)}}};
  trough.within = within;
  return trough;
}

MonthSeries<Temperature> cold_january_hot_july() {
  std::array<std::optional<Temperature>, 12> given{};
  given[static_cast<std::size_t>(Month::Jan)] = fahrenheit(40.0);
  given[static_cast<std::size_t>(Month::Jul)] = fahrenheit(90.0);
  return fill_months(given, GapRule::Straight);
}

}  // namespace

TEST_CASE("eighty pairs at 15 imperial gallons over four hours need 5 imp gal/min", "[reference]") {
  // reference-values A2.3d: Alberta Agriculture, Pasture Pipeline Design (Agdex 716), steps 1-2.
  const std::string source = "Alberta Agriculture Agdex 716, steps 1-2";
  CAPTURE(source);
  const Parsed<WrittenNeed> parsed = parse_need("1200 imp gal/day");
  REQUIRE(std::holds_alternative<Volume>(std::get<WrittenNeed>(parsed)));
  const double day_m3 = std::get<Volume>(std::get<WrittenNeed>(parsed)).in_si();
  CHECK(day_m3 == Approx(80.0 * 15.0 * 4.54609e-3).epsilon(1e-13));
  Trough trough;
  trough.need = DailyNeed{MonthSeries<Volume>::constant(cubic_metres(day_m3))};
  trough.within = std::get<Duration>(parse_duration("240 min"));
  const std::optional<Flow> rate = need_rate(trough, std::nullopt, std::nullopt);
  REQUIRE(rate.has_value());
  CHECK(rate->in_si() ==
        Approx(std::get<Flow>(parse_flow("5 imp gal/min")).in_si()).epsilon(1e-12));
  CHECK(in_us_gallons_per_minute(*rate) == Approx(6.0).margin(0.05));
}

TEST_CASE("a herd's need is its day's water over the hours it drinks") {
  const Trough trough = herd_trough("dry beef cow", 24.0, hours(6.0));
  const std::optional<Flow> rate = need_rate(trough, std::nullopt, std::nullopt);
  REQUIRE(rate.has_value());
  CHECK(in_us_gallons_per_minute(*rate) == Approx(24.0 * 12.4 / 360.0).epsilon(1e-12));

  SECTION("two kinds drink together") {
    Trough both = trough;
    std::get<HerdNeed>(both.need).herd.push_back({"calf", heads(10.0)});
    CHECK(in_us_gallons_per_minute(*need_rate(both, std::nullopt, std::nullopt)) ==
          Approx((24.0 * 12.4 + 10.0 * 7.4) / 360.0).epsilon(1e-12));
  }
  SECTION("two hundred layers drink two hundreds") {
    const Trough hens = herd_trough("layers", 200.0, hours(24.0));
    CHECK(in_us_gallons_per_minute(*need_rate(hens, std::nullopt, std::nullopt)) ==
          Approx(15.0 / 1440.0).epsilon(1e-12));
  }
}

TEST_CASE("a herd drinks by the air of the month where it is known") {
  const Trough trough = herd_trough("dry beef cow", 1.0, hours(24.0));
  const std::optional<MonthSeries<Temperature>> air = cold_january_hot_july();
  const auto gallons_a_day = [&](std::optional<Month> month) {
    return in_us_gallons_per_minute(*need_rate(trough, air, month)) * 1440.0;
  };
  CHECK(gallons_a_day(Month::Jan) == Approx(6.0).epsilon(1e-12));
  CHECK(gallons_a_day(Month::Jul) == Approx(17.6).epsilon(1e-12));
  // Without a month the changing air says nothing: the summer row, not January's.
  CHECK(gallons_a_day(std::nullopt) == Approx(12.4).epsilon(1e-12));
  const std::optional<MonthSeries<Temperature>> steady =
      MonthSeries<Temperature>::constant(fahrenheit(60.0));
  CHECK(in_us_gallons_per_minute(*need_rate(trough, steady, std::nullopt)) * 1440.0 ==
        Approx(7.4).epsilon(1e-12));
}

TEST_CASE("a need given as a rate is that rate whatever the hours") {
  Trough trough;
  trough.within = hours(4.0);
  CHECK_FALSE(need_rate(trough, std::nullopt, std::nullopt).has_value());
  trough.need = RateNeed{MonthSeries<Flow>::constant(litres_per_second(0.2))};
  CHECK(*need_rate(trough, std::nullopt, Month::Aug) == litres_per_second(0.2));
}

TEST_CASE("a need changes with the month only where something in it does") {
  std::array<std::optional<Heads>, 12> given{};
  given[4] = Heads::from_si(10.0);
  given[9] = Heads::from_si(20.0);
  const std::optional<MonthSeries<Temperature>> changing_air = cold_january_hot_july();
  const std::optional<MonthSeries<Temperature>> steady_air =
      MonthSeries<Temperature>::constant(celsius(20.0));
  Trough trough;
  CHECK_FALSE(need_varies(trough, changing_air));
  trough = herd_trough("dry beef cow", 24.0, hours(6.0));
  CHECK_FALSE(need_varies(trough, std::nullopt));
  CHECK_FALSE(need_varies(trough, steady_air));
  CHECK(need_varies(trough, changing_air));
  // A horse's one row does not know the air.
  CHECK_FALSE(need_varies(herd_trough("horse", 2.0, hours(6.0)), changing_air));
  trough.need = HerdNeed{{{"horse", fill_months(given, GapRule::Higher)}}};
  CHECK(need_varies(trough, std::nullopt));
  trough.need = RateNeed{MonthSeries<Flow>::constant(litres_per_second(0.2))};
  CHECK_FALSE(need_varies(trough, changing_air));
  MonthSeries<Volume> per_day = MonthSeries<Volume>::constant(litres(500.0));
  trough.need = DailyNeed{per_day};
  CHECK_FALSE(need_varies(trough, changing_air));
  per_day.varies = true;
  trough.need = DailyNeed{per_day};
  CHECK(need_varies(trough, changing_air));
}

TEST_CASE("an animal the loader let through unchecked is a fault of the program") {
  CHECK_THROWS_AS(need_rate(herd_trough("unicorn", 1.0, hours(1.0)), std::nullopt, std::nullopt),
                  std::logic_error);
}
