// The season's part of the farm: dates, records, weather, ponds, pumps.
#include "model/farm/date.h"

#include <algorithm>
#include <stdexcept>
#include <string>

#include <catch2/catch.hpp>

#include "model/keys/farm_file.h"
#include "model/keys/size_choice.h"

namespace {

using namespace leat;
using namespace leat::model;

const std::string farms = std::string(LEAT_SOURCE_DIR) + "/tests/farms/";

Farm loaded(const std::string& name) {
  const LoadedFarm result = load_farm_file(farms + name);
  for (const Diagnostic& problem : result.problems) {
    UNSCOPED_INFO(problem.file << ":" << problem.position.line << ": " << problem.text);
  }
  REQUIRE(result.farm.has_value());
  return *result.farm;
}

template <class Data>
const Data& data_of(const Farm& farm, const std::string& name) {
  for (const Place& place : farm.places) {
    if (place.name == name) {
      return std::get<Data>(place.data);
    }
  }
  throw std::runtime_error("no place " + name);
}

Approx exactly(double value) {
  return Approx(value).epsilon(1e-12);
}

double mm_per_day(DepthRate rate) {
  return rate.in_si() * 86400.0 * 1000.0;
}

}  // namespace

TEST_CASE("A date is a day's number and back, over leap years and centuries") {
  // Unix time counts days from 1970-01-01; 951 782 400 s is 2000-02-29 (POSIX: 86 400 s a day).
  CHECK(day_number(Date{1970, 1, 1}) == 0);
  CHECK(day_number(Date{2000, 2, 29}) == 951782400 / 86400);
  CHECK(day_number(Date{2000, 3, 1}) - day_number(Date{2000, 2, 28}) == 2);
  CHECK(day_number(Date{1900, 3, 1}) - day_number(Date{1900, 2, 28}) == 1);
  for (int number = -800000; number < 800000; number += 97) {
    CAPTURE(number);
    REQUIRE(day_number(date_of_day(number)) == number);
  }
}

TEST_CASE("A date is read only as year-month-day of a day there is") {
  CHECK(parse_date("2026-08-14") == Date{2026, 8, 14});
  CHECK(parse_date("2024-02-29") == Date{2024, 2, 29});
  CHECK(date_text(Date{2026, 8, 4}) == "2026-08-04");
  for (const char* const text : {"2026-02-29",
                                 "2026-13-01",
                                 "2026-00-10",
                                 "2026-04-31",
                                 "0000-01-01",
                                 "2026-8-14",
                                 "14.08.2026",
                                 "2026-08-14 ",
                                 "2026/08/14",
                                 "",
                                 "----------",
                                 "20260-8-14"}) {
    CAPTURE(text);
    CHECK_FALSE(parse_date(text).has_value());
  }
  CHECK(Date{2026, 1, 31} < Date{2026, 2, 1});
}

TEST_CASE("The wind's speed is read in metres a second, kilometres and miles an hour") {
  const LoadedFarm result = load_farm(
      "farm: T\nponds: {a: {surface: 2 m}, b: {surface: 1 m}}\nweather: {wind: {Jan: 36 km/h, "
      "Jul: 10 mph}}\npipes: {p: {from: a, to: b, size: 1 in SIDR 15, length: 9 m}}\n",
      "farm.yaml");
  REQUIRE(result.farm.has_value());
  const auto& wind = *result.farm->weather->wind_m_s;
  CHECK(wind.by_month[0] == exactly(10.0));
  CHECK(wind.by_month[6] == exactly(4.4704));  // 1609.344 m x 10 / 3600 s
  CHECK(wind.by_month[3] == exactly(10.0));    // the higher of its neighbours
}

TEST_CASE("Every key: a month's rain is spread over its days, a rate is kept") {
  const Weather weather = *loaded("every-key.yaml").weather;
  CHECK(mm_per_day(weather.rain->at(Month::Jan)) == exactly(60.0 / 31.0));
  CHECK(mm_per_day(weather.rain->at(Month::Jul)) == exactly(90.0 / 31.0));
  CHECK(mm_per_day(weather.rain->at(Month::Feb)) == exactly(60.0 / 31.0));
  CHECK(mm_per_day(weather.pan_evaporation->at(Month::Feb)) == exactly(4.0));
  CHECK(weather.rain_days->at(Month::Jan) == 10.0);
  CHECK(weather.pan_coefficient == 0.7);
  CHECK(in_celsius(weather.tmin->at(Month::Apr)) == exactly(4.0));
  CHECK(weather.wind_m_s->at(Month::May) == exactly(2.0));
  CHECK(weather.humidity_percent->at(Month::Feb) == exactly(65.0));
  CHECK(weather.sunshine_h->at(Month::Feb) == exactly(8.0));
  CHECK(weather.days.empty());
}

TEST_CASE("Every key: ponds keep shape, spill, seepage, catchment and stock") {
  const Farm farm = loaded("every-key.yaml");
  const auto& house = data_of<Pond>(farm, "house pond");
  const auto& stages = std::get<std::vector<StageArea>>(house.shape);
  REQUIRE(stages.size() == 2);
  CHECK(in_metres(stages[0].level) == exactly(77.0));
  CHECK(in_square_metres(stages[1].area) == exactly(400.0));
  CHECK(in_metres(*house.spills) == exactly(80.2));
  CHECK(mm_per_day(std::get<DepthRate>(house.seepage)) == exactly(2.0));
  CHECK(in_square_metres(house.catchment->area) == exactly(20000.0));
  CHECK(house.catchment->curve_number == 74.0);
  REQUIRE(house.stock.herd.size() == 1);
  CHECK(house.stock.herd[0].animal == "ewe");
  const auto& round = data_of<Pond>(farm, "round pond");
  const auto& cone = std::get<ConeShape>(round.shape);
  CHECK(in_metres(cone.diameter) == exactly(12.0));
  CHECK(cone.side_run == 2.0);
  CHECK(in_metres(cone.depth) == exactly(2.0));
  CHECK(std::get<std::string>(round.seepage) == "clay");
  const auto& prism = std::get<PrismShape>(data_of<Pond>(farm, "long pond").shape);
  CHECK(in_metres(prism.top_length) == exactly(20.0));
  CHECK(in_metres(prism.top_width) == exactly(10.0));
  CHECK(std::holds_alternative<std::monostate>(data_of<Pond>(farm, "long pond").seepage));
}

TEST_CASE("Every key: hours at troughs, pumps, rams and floats that break") {
  const Farm farm = loaded("every-key.yaml");
  const auto& drinks = data_of<Trough>(farm, "north").drinks;
  REQUIRE(drinks.size() == 2);
  CHECK(in_hours(drinks[1].from) == exactly(17.0));
  CHECK(in_hours(data_of<Trough>(farm, "south").drinks.at(0).from) == exactly(5.5));
  REQUIRE(farm.pumps.size() == 1);
  const Pump& pump = farm.pumps[0];
  CHECK(pump.name == "lift");
  CHECK(farm.places[pump.from].name == "house pond");
  CHECK(farm.places[pump.to].name == "square tank");
  REQUIRE(pump.curve.size() == 2);
  CHECK(in_metres(pump.curve[1].second) == exactly(8.0));
  CHECK(in_hours(*pump.hours_a_day) == exactly(4.0));
  CHECK(pump.runs.empty());
  CHECK(*pump.efficiency == exactly(0.4));
  REQUIRE(farm.rams.size() == 1);
  CHECK(farm.pipes[farm.rams[0].drive].name == "side line");
  CHECK(farm.pipes[farm.rams[0].delivery].name == "to east");
  CHECK(in_metres(*farm.rams[0].level) == exactly(85.0));
  CHECK(in_cubic_metres_per_second(*farm.rams[0].takes) == exactly(2.5 / 60000.0));
  REQUIRE(farm.breaks.size() == 2);
  CHECK(farm.places[farm.breaks[0].place].name == "north");
  CHECK(farm.breaks[0].on == Date{2026, 8, 10});
}

TEST_CASE("A spring's record gives each month its lowest yield, and the others the rule's") {
  const Farm farm = loaded("windrush.yaml");
  CHECK(sizes_to_choose(farm).empty());
  const auto& spring = data_of<Spring>(farm, "upper");
  REQUIRE(spring.yield_record.size() == 4);
  CHECK(spring.yield_record[2].on == Date{2025, 8, 14});
  // Measured: 20 L/min in May, 6.5, 5 and 8 in August.
  CHECK(in_litres_per_second(spring.yield.at(Month::May)) == exactly(20.0 / 60.0));
  CHECK(in_litres_per_second(spring.yield.at(Month::Aug)) == exactly(5.0 / 60.0));
  CHECK(in_litres_per_second(spring.yield.at(Month::Jan)) == exactly(5.0 / 60.0));
  CHECK(spring.yield.assumed_at(Month::Jan));
  CHECK_FALSE(spring.yield.assumed_at(Month::Aug));
  const std::string lowest =
      "yield of spring 'upper': a month takes the lowest value measured in it in any year";
  CHECK(std::count(farm.notes.begin(), farm.notes.end(), lowest) == 1);
}

TEST_CASE("A creek's levels and the water's warmth may be measured on dates") {
  const Farm farm = loaded("windrush.yaml");
  const auto& brook = data_of<Creek>(farm, "brook");
  CHECK(brook.surface_record.size() == 3);
  CHECK(brook.yield_record.size() == 4);
  CHECK(brook.spare_record.empty());
  CHECK(in_metres(brook.surface.at(Month::Feb)) == exactly(90.3));
  CHECK(in_metres(brook.surface.at(Month::Aug)) == exactly(90.1));
  // January's mean of 5 and 7 C; straight to July's 18 C.
  CHECK(farm.site.water_record.size() == 3);
  CHECK(in_celsius(farm.site.water.at(Month::Jan)) == exactly(6.0));
  CHECK(in_celsius(farm.site.water.at(Month::Apr)) == exactly(12.0));
}

TEST_CASE("Weather by the day takes US units, leaves out empty cells, and joins keys by month") {
  const Farm farm = loaded("windrush.yaml");
  const Weather& weather = *farm.weather;
  REQUIRE(weather.days.size() == 3);
  CHECK(weather.days[0].on == Date{2026, 7, 1});
  CHECK(in_millimetres(*weather.days[0].rain) == exactly(12.7));
  CHECK(in_celsius(*weather.days[0].tmin) == exactly(10.0));
  CHECK(in_celsius(*weather.days[0].tmax) == exactly(20.0));
  CHECK(in_millimetres(*weather.days[1].rain) == 0.0);
  CHECK_FALSE(weather.days[1].tmin.has_value());
  CHECK_FALSE(weather.days[0].evaporation.has_value());  // taken by month here
  CHECK(weather.pan_coefficient == 0.75);
  CHECK(mm_per_day(weather.pan_evaporation->at(Month::Jan)) == exactly(1.0));
  CHECK(weather.wind_m_s->at(Month::Jan) == exactly(10.0));
  CHECK(weather.humidity_percent->at(Month::Jul) == exactly(60.0));
  CHECK(std::get<PrismShape>(data_of<Pond>(farm, "dew pond").shape).side_run == exactly(1.5));
}

TEST_CASE("Weather from one file keeps each of its columns") {
  const std::string text =
      "farm: T\nponds: {a: {surface: 2 m}, b: {surface: 1 m}}\nweather: weather.csv\n"
      "pipes: {p: {from: a, to: b, size: 1 in SIDR 15, length: 9 m}}\n";
  const LoadedFarm result = load_farm(text, farms + "unnamed.yaml");
  REQUIRE(result.farm.has_value());
  const WeatherDay& day = result.farm->weather->days.at(2);
  CHECK(day.on == Date{2026, 7, 5});
  CHECK(in_millimetres(*day.evaporation) == exactly(3.0));
  CHECK(*day.wind_m_s == exactly(2.5 * 0.44704));  // a mile an hour is 0.44704 m/s exactly
  CHECK(*day.humidity_percent == exactly(80.0));
  CHECK(*day.sunshine_h == exactly(1.5));
}
