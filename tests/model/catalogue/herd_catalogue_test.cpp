#include "model/catalogue/herd_catalogue.h"

#include <array>
#include <stdexcept>
#include <string>

#include <catch2/catch.hpp>

#include "model/quantity/quantity_text.h"

using namespace leat;         // NOLINT(google-build-using-namespace)
using namespace leat::model;  // NOLINT(google-build-using-namespace)

namespace {

const CatalogueAnimal& animal_named(const std::string& name) {
  const CatalogueAnimal* animal = find_animal(name);
  if (animal == nullptr) {
    FAIL("no animal '" << name << "'");
  }
  return *animal;
}

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

TEST_CASE("beef drink what the published lists say at each air temperature", "[reference]") {
  struct Row {
    std::string source;
    std::string animal;
    double air_f;
    double gallons;
  };
  const std::string ksu = "reference-values I1: KSU Livestock Watering Handbook";
  const std::string press = "reference-values I1: press quoting NRC 1996, Winchester & Morris 1956";
  const Row row = GENERATE_COPY(values<Row>({
      {ksu, "nursing beef cow", 40.0, 11.4},
      {ksu, "nursing beef cow", 60.0, 14.5},
      {press, "nursing beef cow", 70.0, 16.3},
      {press, "nursing beef cow", 80.0, 17.9},
      {press, "nursing beef cow", 90.0, 21.6},
      {ksu, "dry beef cow", 40.0, 6.0},
      {ksu, "dry beef cow", 60.0, 7.4},
      {press, "dry beef cow", 70.0, 10.8},
      {press, "dry beef cow", 80.0, 12.4},
      {press, "dry beef cow", 90.0, 17.6},
      {"I1, from memory", "bull", 40.0, 8.7},
      {press, "bull", 70.0, 12.7},
      {press, "bull", 80.0, 14.6},
      {press, "bull", 90.0, 19.5},
      {press, "calf", 70.0, 6.5},
      {press, "calf", 80.0, 7.4},
      {press, "calf", 90.0, 10.6},
  }));
  CAPTURE(row.source, row.animal, row.air_f);
  CHECK(in_us_gallons(daily_water(animal_named(row.animal), fahrenheit(row.air_f))) ==
        Approx(row.gallons).epsilon(1e-12));
}

TEST_CASE("other stock drink the published amount, the top of a range", "[reference]") {
  struct Row {
    std::string source;
    std::string animal;
    double litres;
  };
  constexpr double gallon = 3.785411784;
  const Row row = GENERATE_COPY(values<Row>({
      {"I2: NDSU 2008, 60 lb of milk", "milking dairy cow", 24.7 * gallon},
      {"I2: NDSU 2008", "dry dairy cow", 16.2 * gallon},
      {"I2: KSU 8-14 gal", "horse", 14.0 * gallon},
      {"I2: 2-3 gal hot", "ewe", 3.0 * gallon},
      {"I2: 0.75-1.5 gal", "dry sheep", 1.5 * gallon},
      {"I2: 4-10 L", "goat", 10.0},
      {"I2: 10-35 L", "grower pig", 35.0},
      {"I2: NZ sow", "sow", 25.0},
      {"I2: 5.0-7.5 gal per 100", "layers", 0.075 * gallon},
  }));
  CAPTURE(row.source, row.animal);
  CHECK(in_litres(daily_water(animal_named(row.animal), std::nullopt)) ==
        Approx(row.litres).epsilon(1e-12));
}

TEST_CASE("without an air temperature stock drink as at 80 F") {
  for (const CatalogueAnimal& animal : herd_catalogue()) {
    CAPTURE(animal.name);
    CHECK(daily_water(animal, std::nullopt) == daily_water(animal, fahrenheit(80.0)));
    CHECK(animal.rows[animal.summer_row].air == fahrenheit(80.0));
  }
}

TEST_CASE("stock never drink less on a warmer day", "[law]") {
  for (const CatalogueAnimal& animal : herd_catalogue()) {
    CAPTURE(animal.name);
    REQUIRE_FALSE(animal.rows.empty());
    REQUIRE_FALSE(animal.source.empty());
    for (std::size_t i = 1; i < animal.rows.size(); ++i) {
      CHECK(animal.rows[i - 1].air < animal.rows[i].air);
    }
    Volume cooler = daily_water(animal, fahrenheit(0.0));
    CHECK(cooler > Volume());
    for (double air_f = 1.0; air_f < 120.0; air_f += 1.0) {
      CAPTURE(air_f);
      const Volume warmer = daily_water(animal, fahrenheit(air_f));
      CHECK(in_litres(warmer) >= in_litres(cooler) - 1e-9);
      cooler = warmer;
    }
  }
}

TEST_CASE("between two rows the amount runs straight and outside it stays") {
  const CatalogueAnimal& cow = animal_named("dry beef cow");
  CHECK(in_us_gallons(daily_water(cow, fahrenheit(85.0))) == Approx(15.0).epsilon(1e-12));
  CHECK(daily_water(cow, fahrenheit(-20.0)) == daily_water(cow, fahrenheit(40.0)));
  CHECK(daily_water(cow, fahrenheit(115.0)) == daily_water(cow, fahrenheit(90.0)));
}

TEST_CASE("every animal the format names is there, read without case or extra blanks") {
  for (const char* name : {"beef cow",
                           "dry beef cow",
                           "nursing beef cow",
                           "bull",
                           "calf",
                           "dairy cow",
                           "dry dairy cow",
                           "milking dairy cow",
                           "ewe",
                           "dry sheep",
                           "goat",
                           "horse",
                           "sow",
                           "grower pig",
                           "layers",
                           " Dry  Beef COW "}) {
    CAPTURE(name);
    CHECK(find_animal(name) != nullptr);
  }
  CHECK(find_animal("llama") == nullptr);
  CHECK(daily_water(animal_named("beef cow"), fahrenheit(60.0)) ==
        daily_water(animal_named("nursing beef cow"), fahrenheit(60.0)));
  CHECK(daily_water(animal_named("dairy cow"), std::nullopt) ==
        daily_water(animal_named("milking dairy cow"), std::nullopt));
}

TEST_CASE("eighty pairs at 15 imperial gallons over four hours need 5 imp gal/min", "[reference]") {
  // reference-values A2.3d: Alberta Agriculture, Pasture Pipeline Design (Agdex 716), steps 1-2.
  const std::string source = "Alberta Agriculture Agdex 716, steps 1-2";
  CAPTURE(source);
  const Parsed<RateText> parsed = parse_rate("1200 imp gal/day");
  REQUIRE(std::get<RateText>(parsed).per_day);
  const double day_m3 = std::get<RateText>(parsed).rate.in_si() * 86400.0;
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
