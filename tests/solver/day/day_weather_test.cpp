// The sky of one day: which figures win, how rain is laid out, what open water loses.
#include "solver/day/day_weather.h"

#include <algorithm>
#include <string>
#include <variant>
#include <vector>

#include <catch2/catch.hpp>

#include "solver/day/day_values.h"
#include "solver/hydrology/curve_number.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

using solver::DayWeather;
using solver::EvaporationMethod;
using solver::FarmWeather;

/// A pond with a shape and a catchment under that sky.
model::Farm farm_under(const std::string& site, const std::string& weather) {
  return farm_of("farm: sky\nsite: " + site + "\n" +
                 (weather.empty() ? "" : "weather: " + weather + "\n") +
                 "creeks: {ford: {surface: 95 m}}\n"
                 "ponds: {dug: {surface: 80 m, shape: {top: 20 m x 20 m, depth: 2 m}, "
                 "seepage: clay}}\n"
                 "pipes: {d: {from: ford, to: dug, size: 1 in SIDR 15, length: 60 m}}\n");
}

DayWeather sky(const std::string& site, const std::string& weather, model::Date date) {
  return FarmWeather(farm_under(site, weather)).on(date);
}

/// The notes of that kind of a season.
template <class Note>
std::vector<Note> notes_of(const model::Farm& farm, model::Date from, model::Date to) {
  std::vector<Note> found;
  for (const solver::SeasonNote& note : solver::day_value_notes(farm, from, to)) {
    if (const auto* told = std::get_if<Note>(&note)) {
      found.push_back(*told);
    }
  }
  return found;
}

/// The months that were filled: "JulSep".
std::string filled_months(const solver::MonthsFilled& note) {
  std::string letters;
  for (std::size_t month = 0; month < note.months.size(); ++month) {
    letters += note.months[month] ? std::string(model::month_names[month].substr(0, 3)) : "";
  }
  return letters;
}

constexpr double open_water = 1.05e-3;  // FAO-56 table 12 (from memory), and metres in a millimetre

TEST_CASE("a July day at Uccle takes what the handbook prints from a farm's pond", "[reference]") {
  // Reference J2.1: FAO-56 example 18, 6 July, 50 48' N, 100 m: 3.8805 mm of reference. The file
  // takes a mean humidity: the example's ea 1.4086 kPa over es = (2.5645 + 1.4306) / 2 is 70.52 %;
  // its wind 2.078 m/s at 2 m.
  const DayWeather day = sky("{latitude: 50.8, altitude: 100 m}",
                             "{tmin: 12.3 C, tmax: 21.5 C, humidity: 70.52 %, wind: 2.078 m/s, "
                             "sunshine: 9.25 h}",
                             {2026, 7, 6});
  CHECK(day.evaporation_by == EvaporationMethod::PenmanMonteith);
  CHECK(day.evaporation_m == Approx(3.8805 * open_water).epsilon(5e-3));
}

TEST_CASE("an April day at Bangkok takes what the handbook prints but for the ground's heat",
          "[reference]") {
  // Reference J2.2: FAO-56 example 17, mid-April: 5.7161 mm with 0.14 MJ/m2 going into the ground,
  // which a day's reckoning leaves out (FAO-56 equation 42). Without it 0.408 x 0.246 x 0.14 /
  // (0.246 + 0.0674 x 1.68) = 0.039 mm more. ea 2.85 kPa over es 4.4218 is 64.45 %.
  const DayWeather day = sky("{latitude: 13.7333, altitude: 2 m}",
                             "{tmin: 25.6 C, tmax: 34.8 C, humidity: 64.45 %, wind: 2 m/s, "
                             "sunshine: 8.5 h}",
                             {2026, 4, 15});
  CHECK(day.evaporation_m == Approx(5.755 * open_water).epsilon(5e-3));
}

TEST_CASE("near Lyon temperatures alone go by Hargreaves and with the wind by Penman-Monteith",
          "[reference]") {
  // Reference J2.3: FAO-56 example 20, 15 July, 45 43' N, 200 m: Hargreaves 5.0331; with 2 m/s of
  // wind, sun and humidity guessed from the temperatures, 4.5604.
  const std::string site = "{latitude: 45.7167, altitude: 200 m}";
  const DayWeather alone = sky(site, "{tmin: 14.8 C, tmax: 26.6 C}", {2026, 7, 15});
  CHECK(alone.evaporation_by == EvaporationMethod::Hargreaves);
  CHECK(alone.evaporation_m == Approx(5.0331 * open_water).epsilon(1e-2));
  const DayWeather windy = sky(site, "{tmin: 14.8 C, tmax: 26.6 C, wind: 2 m/s}", {2026, 7, 15});
  CHECK(windy.evaporation_by == EvaporationMethod::PenmanMonteith);
  CHECK(windy.evaporation_m == Approx(4.5604 * open_water).epsilon(1e-2));
}

TEST_CASE("south of the equator the sun of a September day is the handbook's", "[reference]") {
  // Reference J2.4: 20 S, 3 September (day 246): Ra 32.194. By Hargreaves at 10 to 26 C:
  // 0.0023 x (18 + 17.8) x 4 x 0.408 x 32.194 = 4.3262 mm.
  const DayWeather day = sky("{latitude: -20}", "{tmin: 10 C, tmax: 26 C}", {2026, 9, 3});
  CHECK(day.evaporation_m == Approx(4.3262 * open_water).epsilon(1e-3));
  // And its January evaporates more than its July.
  CHECK(sky("{latitude: -20}", "{tmin: 10 C, tmax: 26 C}", {2026, 1, 15}).evaporation_m >
        1.4 * sky("{latitude: -20}", "{tmin: 10 C, tmax: 26 C}", {2026, 7, 15}).evaporation_m);
}

TEST_CASE("a leap year's second of September has the sun of day 246", "[reference]") {
  const auto taken_m = [](model::Date date) {
    return sky("{latitude: -20}", "{tmin: 10 C, tmax: 26 C}", date).evaporation_m;
  };
  CHECK(taken_m({2028, 9, 2}) == taken_m({2026, 9, 3}));
  CHECK(taken_m({2028, 2, 29}) == taken_m({2026, 3, 1}));
}

TEST_CASE("a pan wins over any formula and without latitude or warmth nothing evaporates") {
  const std::string full = "tmin: 12 C, tmax: 24 C, wind: 2 m/s, humidity: 60 %, sunshine: 8 h";
  const DayWeather pan =
      sky("{latitude: 45}", "{" + full + ", evaporation: 4 mm/day}", {2026, 7, 15});
  CHECK(pan.evaporation_by == EvaporationMethod::Pan);
  CHECK(pan.evaporation_m == Approx(0.7 * 4e-3));
  const DayWeather nowhere = sky("{altitude: 5 m}", "{" + full + "}", {2026, 7, 15});
  CHECK(nowhere.evaporation_by == EvaporationMethod::Nothing);
  CHECK(nowhere.evaporation_m == 0.0);
  CHECK(sky("{latitude: 45}", "{tmin: 12 C}", {2026, 7, 15}).evaporation_by ==
        EvaporationMethod::Nothing);
  const model::Farm dry = farm_under("{latitude: 45}", "");
  CHECK(FarmWeather(dry).on({2026, 7, 15}).evaporation_m == 0.0);
  const auto left_out = [](const model::Farm& farm) {
    return notes_of<solver::EvaporationLeftOut>(farm, {2026, 7, 1}, {2026, 7, 31});
  };
  REQUIRE(left_out(dry).size() == 1);
  CHECK_FALSE(left_out(dry)[0].lacks_latitude_alone);
  const model::Farm unplaced = farm_under("{altitude: 5 m}", "{" + full + "}");
  REQUIRE(left_out(unplaced).size() == 1);
  CHECK(left_out(unplaced)[0].lacks_latitude_alone);
}

TEST_CASE("a month's rain falls on its own days and on no others, leap year or not") {
  const std::vector<double> sums_mm = {90, 56, 31, 0, 62, 15, 3, 0, 40, 77, 60, 124};
  std::string rain = "{rain: {";
  for (std::size_t month = 0; month < 12; ++month) {
    rain += std::string(month == 0 ? "" : ", ") + std::string(model::month_names[month]) + ": " +
            std::to_string(sums_mm[month]) + " mm";
  }
  rain += "}, rain days: {";
  const std::vector<int> rains = {9, 8, 31, 4, 31, 2, 1, 0, 7, 11, 30, 16};
  for (std::size_t month = 0; month < 12; ++month) {
    rain += std::string(month == 0 ? "" : ", ") + std::string(model::month_names[month]) + ": " +
            std::to_string(rains[month]);
  }
  const FarmWeather weather(farm_under("{latitude: 45}", rain + "}}"));
  for (const int year : {2026, 2028}) {
    std::vector<double> fallen_mm(12, 0.0);
    std::vector<double> stormed_mm(12, 0.0);
    std::vector<double> run_off_mm(12, 0.0);
    for (int day = model::day_number({year, 1, 1}); day <= model::day_number({year, 12, 31});
         ++day) {
      const model::Date date = model::date_of_day(day);
      const auto month = static_cast<std::size_t>(date.month - 1);
      const DayWeather today = weather.on(date);
      fallen_mm[month] += *today.rain_m * 1e3;
      stormed_mm[month] += *today.storm_m * 1e3;
      run_off_mm[month] += hydrology::day_runoff_mm(*today.storm_m * 1e3, 80.0);
    }
    for (std::size_t month = 0; month < 12; ++month) {
      CAPTURE(year, month);
      CHECK(fallen_mm[month] == Approx(sums_mm[month]).margin(1e-9));
      CHECK(stormed_mm[month] == Approx(rains[month] > 0 ? sums_mm[month] : 0.0).margin(1e-9));
      CHECK(run_off_mm[month] ==
            Approx(hydrology::month_runoff_mm(sums_mm[month], rains[month], 80.0)).margin(1e-9));
    }
  }
}

TEST_CASE("equal rains lie evenly in their month, as many as asked") {
  for (int days = 28; days <= 31; ++days) {
    for (int rains = 0; rains <= days; ++rains) {
      int fallen = 0;
      int last = 0;
      int widest = 0;
      for (int day = 1; day <= days; ++day) {
        if (solver::rains_on_day(day, days, rains)) {
          ++fallen;
          widest = fallen > 1 ? std::max(widest, day - last) : widest;
          last = day;
        }
      }
      CAPTURE(days, rains);
      CHECK(fallen == rains);
      CHECK((rains == 0 || widest <= (days + rains - 1) / rains));
    }
  }
}

TEST_CASE("rain by the month without its days falls on the pond and runs off nowhere") {
  const model::Farm farm = farm_under("{latitude: 45}", "{rain: 60 mm, evaporation: 60 mm}");
  const DayWeather day = FarmWeather(farm).on({2026, 6, 11});
  CHECK(*day.rain_m == Approx(0.002));
  CHECK_FALSE(day.storm_m);
}

/// Ten days of a gauge and a thermometer beside the months; nothing measured on the fifth.
model::Farm measured_farm(const std::string& months) {
  model::Farm farm = farm_under("{latitude: 45}", months);
  if (!farm.weather) {
    farm.weather.emplace();
  }
  for (int day = 1; day <= 10; ++day) {
    if (day != 5) {
      farm.weather->days.push_back({.on = {2026, 7, day},
                                    .rain = millimetres(day),
                                    .evaporation = {},
                                    .tmin = celsius(day),
                                    .tmax = celsius(20 + day),
                                    .wind_m_s = {},
                                    .humidity_percent = {},
                                    .sunshine_h = {}});
    }
  }
  return farm;
}

TEST_CASE("a day that was measured wins over its month, and only that day") {
  const FarmWeather weather(
      measured_farm("{rain: 62 mm, rain days: 31, tmin: 15 C, tmax: 25 C, evaporation: 2 mm/day}"));
  const DayWeather third = weather.on({2026, 7, 3});
  CHECK(*third.rain_m == Approx(0.003));
  CHECK(*third.storm_m == Approx(0.003));
  CHECK_FALSE(third.storm_by_months);
  CHECK(*third.lowest_C == 3.0);
  CHECK(*third.mean_C() == 13.0);
  CHECK(third.evaporation_by == EvaporationMethod::Pan);
  const DayWeather fifth = weather.on({2026, 7, 5});
  CHECK(*fifth.rain_m == Approx(0.002));
  CHECK(fifth.storm_by_months);
  CHECK(*fifth.lowest_C == Approx(15.0));
  CHECK_FALSE(fifth.bridged);
  CHECK(*weather.on({2027, 7, 3}).lowest_C == Approx(15.0));
}

TEST_CASE("a short gap of a daily file is bridged but for its rain, a long one is not") {
  model::Farm farm = measured_farm("");
  const DayWeather fifth = FarmWeather(farm).on({2026, 7, 5});
  CHECK(*fifth.lowest_C == Approx(5.0));
  CHECK(*fifth.highest_C == Approx(25.0));
  CHECK(fifth.bridged);
  CHECK_FALSE(fifth.rain_m);
  CHECK_FALSE(FarmWeather(farm).on({2026, 7, 11}).lowest_C);
  farm.weather->days.back().on = {2026, 8, 10};
  CHECK_FALSE(FarmWeather(farm).on({2026, 7, 20}).lowest_C);
  const auto untold = notes_of<solver::RainUntold>(farm, {2026, 7, 1}, {2026, 7, 9});
  REQUIRE(untold.size() == 1);
  CHECK(untold[0].days.days == 1);
  CHECK(untold[0].days.of == 9);
  const auto bridged = notes_of<solver::WeatherBridged>(farm, {2026, 7, 1}, {2026, 7, 9});
  REQUIRE(bridged.size() == 1);
  CHECK(bridged[0].days.days == 1);
  CHECK(bridged[0].days.of == 9);
}

TEST_CASE("the notes name every key and the months it was not given for") {
  const model::Farm farm = farm_of(
      "farm: gaps\nsprings: {up: {overflow: 100 m, yield: {Jan: 9 L/min, May: 4 L/min, "
      "Jun: 3 L/min, Aug: 1 L/min}}}\n"
      "troughs: {low: {float: 80 m, herd: {dry beef cow: 24}}}\n"
      "pipes: {a: {from: up, to: low, size: 1 in SIDR 15, length: 60 m}}\n");
  const auto notes = solver::day_value_notes(farm, {2026, 5, 1}, {2026, 10, 31});
  REQUIRE(notes.size() == 2);
  const auto& yield = std::get<solver::MonthsFilled>(notes[0]);
  CHECK(yield.series.kind == solver::SeriesKind::Yield);
  CHECK(yield.series.place == "up");
  CHECK(filled_months(yield) == "JulSepOct");
  CHECK(yield.rule == model::GapRule::Lower);
  const auto& warmth = std::get<solver::WarmthUntold>(notes[1]);
  CHECK(warmth.days.days == 184);
  CHECK(warmth.days.of == 184);
  const auto of_years = notes_of<solver::MonthsFilled>(farm, {2026, 1, 1}, {2027, 12, 31});
  REQUIRE(of_years.size() == 1);
  CHECK(filled_months(of_years[0]) == "FebMarAprJulSepOctNovDec");
  CHECK(notes_of<solver::MonthsFilled>(farm, {2026, 5, 1}, {2026, 6, 30}).empty());
}

TEST_CASE("the notes say how evaporation, seepage and runoff were reckoned") {
  model::Farm farm =
      farm_under("{latitude: 45}", "{rain: 60 mm, rain days: 6, tmin: 4 C, tmax: 20 C}");
  std::get<model::Pond>(farm.places[1].data).catchment =
      model::Catchment{square_metres(1e4), 74.0, {}};
  const model::Date from{2026, 5, 1};
  const model::Date to{2026, 10, 31};
  const auto evaporation = notes_of<solver::EvaporationReckoned>(farm, from, to);
  REQUIRE(evaporation.size() == 1);
  CHECK(evaporation[0].days_by_method.at(static_cast<std::size_t>(EvaporationMethod::Hargreaves)) ==
        184);
  CHECK(evaporation[0].days == 184);
  CHECK(notes_of<solver::StormsByMonth>(farm, from, to).size() == 1);
  const auto seepage = notes_of<solver::SeepageOfSoil>(farm, from, to);
  REQUIRE(seepage.size() == 1);
  CHECK(seepage[0].pond == "dug");
  CHECK(seepage[0].soil == "clay");
  CHECK(seepage[0].middle_mm_day == Approx(3.5355).epsilon(1e-4));
  CHECK(notes_of<solver::RunoffUncounted>(farm, from, to).empty());
  farm.weather->rain_days.reset();
  CHECK(notes_of<solver::RunoffUncounted>(farm, from, to).size() == 1);
}

TEST_CASE("the notes say where a record does not reach") {
  model::Farm farm = farm_under("{latitude: 45}", "");
  auto& creek = std::get<model::Creek>(farm.places[0].data);
  creek.surface_record = {{{2026, 1, 5}, elevation_metres(95.0)},
                          {{2026, 7, 5}, elevation_metres(94.0)}};
  CHECK(notes_of<solver::BeyondRecord>(farm, {2026, 5, 1}, {2026, 6, 30}).empty());
  const auto beyond = notes_of<solver::BeyondRecord>(farm, {2026, 5, 1}, {2026, 10, 31});
  REQUIRE(beyond.size() == 1);
  CHECK(beyond[0].first == model::Date{2026, 1, 5});
  CHECK(beyond[0].last == model::Date{2026, 7, 5});
  const auto gaps = notes_of<solver::RecordGap>(farm, {2026, 5, 1}, {2026, 6, 30});
  REQUIRE(gaps.size() == 1);
  CHECK(gaps[0].from == model::Date{2026, 1, 5});
  CHECK(gaps[0].to == model::Date{2026, 7, 5});
  // Months that were not measured matter only on the days that the record does not reach.
  creek.surface = model::fill_months<Elevation>(
      {elevation_metres(95.0), {}, {}, {}, {}, {}, elevation_metres(94.0)}, model::GapRule::Lower);
  const auto filled = notes_of<solver::MonthsFilled>(farm, {2026, 2, 1}, {2026, 9, 30});
  REQUIRE(filled.size() == 1);
  CHECK(filled[0].series.kind == solver::SeriesKind::Surface);
  CHECK(filled_months(filled[0]) == "AugSep");
}

}  // namespace

}  // namespace leat::tests
