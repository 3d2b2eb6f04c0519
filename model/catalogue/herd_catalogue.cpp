#include "model/catalogue/herd_catalogue.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <utility>

#include "model/catalogue/catalogue_name.h"

namespace leat::model {
namespace {

/// The air temperature of the published summer rows; rows without a temperature stand here too.
constexpr double summer_f = 80.0;

HerdRow at_fahrenheit(double air_f, double gallons) {
  return {fahrenheit(air_f), us_gallons(gallons)};
}

CatalogueAnimal animal(std::string name, std::vector<HerdRow> rows, std::string source) {
  CatalogueAnimal result;
  result.name = std::move(name);
  result.rows = std::move(rows);
  result.source = std::move(source);
  const Temperature summer = fahrenheit(summer_f);
  for (std::size_t i = 0; i < result.rows.size(); ++i) {
    if (result.rows[i].air == summer) {
      result.summer_row = i;
    }
  }
  return result;
}

/// An animal with one published amount, whatever the air.
CatalogueAnimal fixed(std::string name, Volume per_day, std::string source) {
  return animal(std::move(name), {{fahrenheit(summer_f), per_day}}, std::move(source));
}

std::vector<HerdRow> nursing_cow_rows() {
  return {at_fahrenheit(40.0, 11.4),
          at_fahrenheit(60.0, 14.5),
          at_fahrenheit(70.0, 16.3),
          at_fahrenheit(80.0, 17.9),
          at_fahrenheit(90.0, 21.6)};
}

/// Beef. NDSU's list at 88 F (16.5 gal nursing, 14 dry, 18 bull, 9 calf) stands below its
/// neighbours at 80 and 90 F and is left out: a straight line through it would fall as days warm.
std::vector<CatalogueAnimal> beef() {
  const std::string press =
      "beef press quoting NRC 1996 and Winchester & Morris 1956 at 70, 80, 90 F; NDSU 2008's "
      "lower 88 F row left out";
  const std::string handbook = "KSU Livestock Watering Handbook at 40, 60 F; ";
  return {
      animal("beef cow",
             nursing_cow_rows(),
             "taken as a nursing beef cow, the cautious reading. " + handbook + press),
      animal("dry beef cow",
             {at_fahrenheit(40.0, 6.0),
              at_fahrenheit(60.0, 7.4),
              at_fahrenheit(70.0, 10.8),
              at_fahrenheit(80.0, 12.4),
              at_fahrenheit(90.0, 17.6)},
             "dry and pregnant. " + handbook + press),
      animal("nursing beef cow", nursing_cow_rows(), handbook + press),
      animal("bull",
             {at_fahrenheit(40.0, 8.7),
              at_fahrenheit(70.0, 12.7),
              at_fahrenheit(80.0, 14.6),
              at_fahrenheit(90.0, 19.5)},
             "mature. 40 F from memory; " + press),
      animal("calf",
             {at_fahrenheit(70.0, 6.5), at_fahrenheit(80.0, 7.4), at_fahrenheit(90.0, 10.6)},
             "500 lb. " + press),
  };
}

std::vector<CatalogueAnimal> dairy() {
  constexpr double milking_gallons = 24.7;
  const std::string milking =
      "1400 lb at 80 F, 60 lb of milk a day: NDSU 2008 (17.9 gal at 20 lb of milk, 38.7 at 80, "
      "45.7 at 100). NZ farm lists plan 70 L, and as much again to wash the plant";
  return {
      fixed("dairy cow", us_gallons(milking_gallons), "taken as milking. " + milking),
      fixed("dry dairy cow", us_gallons(16.2), "1400 lb at 80 F: NDSU 2008"),
      fixed("milking dairy cow", us_gallons(milking_gallons), milking),
  };
}

/// Small stock: sources give ranges, of which the top is taken (summer, cautious).
std::vector<CatalogueAnimal> small_stock() {
  CatalogueAnimal layers = animal(
      "layers",
      {at_fahrenheit(summer_f, 7.5), at_fahrenheit(90.0, 9.0)},
      "per 100 birds: 5.0 to 7.5 gal (top taken; set at 80 F, the source names no temperature), "
      "9.0 at 90 F, extension lists; NZ lists 20 L");
  constexpr int layers_per_unit = 100;
  layers.heads_per_unit = layers_per_unit;
  return {
      fixed("ewe", us_gallons(3.0), "nursing, hot weather: 2 to 3 gal for planning, top taken"),
      fixed("dry sheep", us_gallons(1.5), "150 lb: 0.75 to 1.5 gal, top taken"),
      fixed("goat", litres(10.0), "4 to 10 L, top taken; dairy goats drink more"),
      fixed("horse", us_gallons(14.0), "8 to 14 gal: KSU, top taken; hot work needs 2 to 4 times"),
      fixed("sow", litres(25.0), "nursing: NZ farm lists 25 L; others 40 to 50 lb (18 to 23 L)"),
      fixed("grower pig", litres(35.0), "10 to 35 L, top taken; 16 lb at 75 to 125 lb"),
      layers,
  };
}

std::vector<CatalogueAnimal> all_animals() {
  std::vector<CatalogueAnimal> animals = beef();
  for (std::vector<CatalogueAnimal> more : {dairy(), small_stock()}) {
    std::move(more.begin(), more.end(), std::back_inserter(animals));
  }
  return animals;
}

}  // namespace

const std::vector<CatalogueAnimal>& herd_catalogue() {
  static const std::vector<CatalogueAnimal> animals = all_animals();
  return animals;
}

const CatalogueAnimal* find_animal(std::string_view name) {
  const std::string wanted = plain_name(name);
  for (const CatalogueAnimal& animal : herd_catalogue()) {
    if (animal.name == wanted) {
      return &animal;
    }
  }
  return nullptr;
}

Volume daily_water(const CatalogueAnimal& animal, std::optional<Temperature> air) {
  const std::vector<HerdRow>& rows = animal.rows;
  const double unit = animal.heads_per_unit;
  if (!air) {
    return rows[animal.summer_row].per_head_per_day / unit;
  }
  if (*air <= rows.front().air) {
    return rows.front().per_head_per_day / unit;
  }
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (*air <= rows[i].air) {
      const HerdRow& cold = rows[i - 1];
      const HerdRow& warm = rows[i];
      const double share =
          (in_celsius(*air) - in_celsius(cold.air)) / (in_celsius(warm.air) - in_celsius(cold.air));
      const Volume rise = warm.per_head_per_day - cold.per_head_per_day;
      return (cold.per_head_per_day + share * rise) / unit;
    }
  }
  return rows.back().per_head_per_day / unit;
}

}  // namespace leat::model
