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
