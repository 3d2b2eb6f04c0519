// What a person reads of a season: the answer first, no line wider than the screen.
#include "render/commands/season/season_report.h"

#include <sstream>
#include <string>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "render/commands/season/season_columns.h"
#include "render/commands/season/season_water_report.h"
#include "render/document/text_table.h"
#include "render/words/season_words.h"
#include "render/words/table_cells.h"
#include "render/words/volume_scale.h"
#include "tests/render/sample_season.h"

namespace leat::render {

namespace {

std::string screen(const model::Farm& farm,
                   const solver::SeasonAnswer& answer,
                   model::UnitSystem units = model::UnitSystem::Metric,
                   int width = 100) {
  Terminal terminal;
  terminal.width = width;
  return season_table(farm, answer, {units, "", std::nullopt}, terminal);
}

bool has_text(const std::string& text, const std::string& piece) {
  return text.find(piece) != std::string::npos;
}

/// A screen as one line of words: where it is wrapped does not matter.
std::string unwrapped(const std::string& text) {
  std::istringstream words(text);
  std::string joined;
  for (std::string word; words >> word;) {
    joined += (joined.empty() ? "" : " ") + word;
  }
  return joined;
}

std::string line_with(const std::string& text, const std::string& piece) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (has_text(line, piece)) {
      return line;
    }
  }
  return "";
}

int widest_line(const std::string& text) {
  int widest = 0;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    widest = std::max(widest, display_width(line));
  }
  return widest;
}

/// The answer over other dates, with as many troughs as asked for.
solver::SeasonAnswer long_season(model::Date from, model::Date to, std::size_t troughs) {
  solver::SeasonAnswer answer = season_answer();
  answer.from = from;
  answer.to = to;
  answer.troughs.clear();
  for (std::size_t i = 0; i < troughs; ++i) {
    solver::TroughSeason trough;
    trough.place = 2;
    trough.first_dry = from;
    trough.longest_dry_h = 744.0;
    const solver::SeasonReason because{{}, {}, solver::ShutValve{"main"}};
    for (const SeasonColumn& column : season_columns(from, to, 100000)) {
      trough.months.push_back(
          {column.first.year, model::month_of(column.first), 10.0, 40.0, 0.25, 744.0, because});
    }
    answer.troughs.push_back(trough);
  }
  return answer;
}

}  // namespace

TEST_CASE("the first lines of a season say who goes short from which day and why") {
  const std::string text = screen(season_farm(), season_answer());
  const std::size_t verdict = text.find("Short of water: north from 2026-08-12 (93 % of its need");
  const std::size_t reason = text.find("north in Aug 2026: its float stands 1.2 m above");
  const std::size_t pattern = text.find("north in Aug: works in the morning, dry by 15:00");
  const std::size_t table = text.find("who gets what");
  REQUIRE(verdict != std::string::npos);
  REQUIRE(reason != std::string::npos);
  REQUIRE(pattern != std::string::npos);
  CHECK(verdict < reason);
  CHECK(reason < pattern);
  CHECK(pattern < table);
  CHECK(has_text(unwrapped(text), "The other trough has enough, all season."));
  CHECK(text.find('\n', verdict) < 400);  // within a handful of lines
}

TEST_CASE("a season tells its hours short from its longest spell, which may be many more hours") {
  CHECK(has_text(unwrapped(screen(season_farm(), season_answer())),
                 "Hours short count the water that lacks: ten hours at 80 % of the need are two."));
}

TEST_CASE("a season in which all have enough says so first") {
  solver::SeasonAnswer answer = season_answer();
  answer.troughs.erase(answer.troughs.begin());
  answer.flags.clear();
  const std::string text = screen(season_farm(), answer);
  CHECK(has_text(text, "Every trough has enough, all season."));
  CHECK(has_text(text, "Nothing amiss that leat checks."));
  CHECK_FALSE(has_text(text, "hours short, 2026"));
  CHECK_FALSE(has_text(text, "Hours short count"));
  answer.troughs.clear();
  CHECK(has_text(screen(season_farm(), answer), "No trough of this farm has a need to be met."));
}

TEST_CASE("a month that falls short by little never reads as fully met") {
  CHECK(percent_text(0.9949) == "99");
  CHECK(percent_text(0.995) == "100");
  CHECK(percent_text(0.0) == "0");
  CHECK(percent_text(std::nullopt) == "-");
  const std::string months = line_with(screen(season_farm(), season_answer()), "61  100");
  CHECK(months == "north            100  100  100   61  100  100");
}

TEST_CASE("hours without enough stand by month and only for troughs that have some") {
  const std::string text = screen(season_farm(), season_answer());
  const std::size_t hours = text.find("hours short, 2026");
  REQUIRE(hours != std::string::npos);
  const std::string part = text.substr(hours, text.find("\n\n", hours) - hours);
  CHECK(has_text(part, "May  Jun  Jul  Aug  Sep  Oct"));
  CHECK(has_text(part, "north"));
  CHECK(has_text(part, "168"));  // (1 - 0.612) x 14 h x 31
  CHECK_FALSE(has_text(part, "south"));
}

TEST_CASE("a pond's fill line is told per day, week, month and year") {
  // 276 m3 in the 184 days of May to October are 1.5 m3 a day, 10.5 a week, 45.7 a mean month of
  // 30.4375 days and 548 a year of 365.25.
  const std::string text = screen(season_farm(), season_answer());
  const std::string line = line_with(text, "pipes bring");
  std::istringstream cells(line.substr(line.find("bring") + 5));
  std::vector<std::string> found;
  for (std::string cell; cells >> cell;) {
    found.push_back(cell);
  }
  CHECK(found == std::vector<std::string>{"1.50", "10.5", "45.7", "548", "276"});
  CHECK(has_text(line_with(text, "sun takes"), "0.75"));
  CHECK(has_text(line_with(text, "house pond  "), "2026-06-03  33 days"));
  CHECK(has_text(line_with(text, "house pond  "), "29.60"));
}

TEST_CASE("water drawn from a pond is not called a gain") {
  solver::PondSeason pond;
  pond.fill_m3 = -12.0;
  CHECK(std::string(pond_causes(pond).front().name) == "pipes draw");
  CHECK(pond_causes(pond).front().volume_m3 == 12.0);
  CHECK_FALSE(pond_causes(pond).front().brings);
}

TEST_CASE("a tank says how low it came and how long it carries the farm alone") {
  const std::string line = line_with(screen(season_farm(), season_answer()), "hill tank  ");
  CHECK(has_text(line, "36.12"));
  CHECK(has_text(line, "2026-08-21"));
  CHECK(has_text(line, "2.50 days"));
  CHECK(has_text(line, "500"));
}

TEST_CASE("where the water went adds up in words") {
  const std::string text = balance_sentence(season_answer(), model::UnitSystem::Metric);
  for (const char* const piece : {"1081 m3 came in",
                                  "420 m3 was drunk or delivered",
                                  "500 m3 ran over",
                                  "178 m3",
                                  "18 m3 less than at the start"}) {
    INFO(piece);
    CHECK(has_text(unwrapped(text), piece));
  }
  CHECK_FALSE(has_text(text, "add up"));
  solver::SeasonAnswer leaky = season_answer();
  leaky.balance.error_m3 = 0.5;
  CHECK(has_text(unwrapped(balance_sentence(leaky, model::UnitSystem::Metric)),
                 "of it does not add up"));
  solver::SeasonAnswer still;  // a line that broke in its first hour: only rounding moved
  still.balance.in_m3 = 7e-19;
  still.balance.moved_m3 = 7e-19;
  still.balance.error_m3 = 7e-19;
  CHECK_FALSE(has_text(balance_sentence(still, model::UnitSystem::Metric), "add up"));
}

TEST_CASE("what lifts water tells its energy and its waste") {
  solver::SeasonAnswer answer = season_answer();
  answer.lifters = {{"creek ram", true, 30.0, 210.0, std::nullopt, 4416.0},
                    {"hill pump", false, 60.0, 0.0, 18.4, 300.0}};
  const std::string text = screen(season_farm(), answer);
  CHECK(has_text(line_with(text, "creek ram"), "210"));
  CHECK(has_text(line_with(text, "hill pump"), "18.4 kWh"));
  CHECK_FALSE(has_text(screen(season_farm(), season_answer()), "kWh"));
}

TEST_CASE("as a spring falls the first to go short stands first") {
  solver::SeasonAnswer answer = season_answer();
  answer.first_short = {{2, 2e-4}, {3, 5e-5}};
  const std::string text =
      season_table(season_farm(), answer, {model::UnitSystem::Metric, "", "upper"}, Terminal{});
  const std::size_t start = text.find("As upper falls, these go short, the first first:");
  REQUIRE(start != std::string::npos);
  CHECK(text.find("north", start) < text.find("south", start));
  CHECK(has_text(text.substr(start), "12.0"));  // 0.2 L/s in L/min
  answer.first_short.clear();
  CHECK(has_text(
      season_table(season_farm(), answer, {model::UnitSystem::Metric, "", "upper"}, Terminal{}),
      "As upper falls, no trough goes short."));
}

TEST_CASE("a siphon that breaks is told with its day") {
  solver::SeasonAnswer answer = season_answer();
  answer.broken = {{0, {2026, 8, 10}}};
  CHECK(has_text(screen(season_farm(), answer), "The siphon from upper breaks on 2026-08-10"));
}

TEST_CASE("notes and cautions stand at the end of a season's table") {
  const std::string text = screen(season_farm(), season_answer());
  CHECK(has_text(text, "note     Rain: nothing given for Sep; taken as the lower of the months"));
  CHECK(has_text(unwrapped(text), "dam-safety office"));
  CHECK(has_text(text, "caution  north gets 61 % of its need in Aug"));
}

TEST_CASE("no line of a season's table is wider than 100 columns") {
  model::Farm farm = season_farm();
  for (model::Place& place : farm.places) {
    place.name = std::string(80, 'n');
  }
  farm.name = std::string(300, 'f');
  farm.datum = std::string(300, 'd');
  for (const std::size_t troughs : {1U, 12U}) {
    for (const model::Date to : {model::Date{2026, 1, 3},
                                 model::Date{2026, 12, 31},
                                 model::Date{2028, 12, 31},
                                 model::Date{2075, 12, 31}}) {
      for (const model::UnitSystem units : {model::UnitSystem::Us, model::UnitSystem::Metric}) {
        solver::SeasonAnswer answer = long_season({2026, 1, 1}, to, troughs);
        answer.ponds.front().fill_m3 = 123456.0;
        answer.tanks.front().spilled_m3 = 1234567.0;
        answer.balance.in_m3 = 1234567.0;
        answer.lifters = {{std::string(80, 'p'), false, 123456.0, 0.0, 12345.6, 100000.0}};
        INFO(troughs << " " << model::date_text(to));
        CHECK(widest_line(screen(farm, answer, units)) <= 100);
      }
    }
  }
}

TEST_CASE("months over the turn of a year keep their order and tell their years") {
  const auto columns = season_columns({2026, 11, 15}, {2027, 2, 10}, 36);
  REQUIRE(columns.size() == 4);
  CHECK(columns[0].label == "Nov");
  CHECK(columns[0].first == model::Date{2026, 11, 15});
  CHECK(columns[0].last == model::Date{2026, 11, 30});
  CHECK(columns[2].label == "Jan");
  CHECK(columns[3].last == model::Date{2027, 2, 10});
  const std::string text = screen(season_farm(), long_season({2026, 11, 15}, {2027, 2, 10}, 1));
  CHECK(has_text(text, "% of need, 2026-2027"));
  CHECK(season_columns({2027, 1, 1}, {2026, 1, 1}, 36).empty());
}

TEST_CASE("very many months are shown by year and lose no water") {
  const solver::SeasonAnswer answer = long_season({2026, 3, 1}, {2030, 6, 30}, 1);
  const auto years = season_columns(answer.from, answer.to, 36);
  REQUIRE(years.size() == 5);
  double got_m3 = 0.0;
  for (const SeasonColumn& year : years) {
    got_m3 += cell_of(answer.troughs[0], year).got_m3;
  }
  CHECK(got_m3 == Approx(cell_of(answer.troughs[0]).got_m3));
  CHECK(got_m3 == Approx(52 * 10.0));
  CHECK(cell_of(answer.troughs[0], years[0]).met == Approx(0.25));
}

TEST_CASE("a day that never works and a day that always works have no pattern to tell") {
  const model::Farm farm = season_farm();
  solver::SeasonAnswer answer = season_answer();
  solver::TroughSeason& north = answer.troughs[0];
  for (auto& day : north.met_by_hour) {
    day.assign(24, 1.0);
  }
  CHECK(day_pattern(farm, north, model::UnitSystem::Metric).empty());
  for (auto& day : north.met_by_hour) {
    day.assign(24, 0.2);
  }
  CHECK(day_pattern(farm, north, model::UnitSystem::Metric).empty());
  north.met_by_hour.clear();
  CHECK(day_pattern(farm, north, model::UnitSystem::Metric).empty());
  north.met_by_hour = {{1.0, 0.5}};  // not a day
  CHECK(day_pattern(farm, north, model::UnitSystem::Metric).empty());
}

TEST_CASE("hours in which no stock drink do not count as hours that work") {
  // The trough's stock drink from 6 to 20 h; it is short in all of them.
  const model::Farm farm = season_farm();
  solver::TroughSeason north = season_answer().troughs[0];
  for (auto& day : north.met_by_hour) {
    day.assign(24, 1.0);
    std::fill(day.begin() + 6, day.begin() + 20, 0.3);
  }
  CHECK(day_pattern(farm, north, model::UnitSystem::Metric).empty());
}

TEST_CASE("a day's pattern is told in the hours of its units and with its recovery") {
  const model::Farm farm = season_farm();
  solver::TroughSeason north = season_answer().troughs[0];
  CHECK(day_pattern(farm, north, model::UnitSystem::Us) ==
        "north in Aug: works in the morning, dry by 3 pm, short from 1 pm.");
  std::vector<double>& day = north.met_by_hour[3];
  day[18] = 1.0;
  day[19] = 1.0;
  CHECK(day_pattern(farm, north, model::UnitSystem::Metric) ==
        "north in Aug: works in the morning, dry by 15:00, short from 13:00; enough again from "
        "18:00.");
  for (int hour = 13; hour < 18; ++hour) {
    day[static_cast<std::size_t>(hour)] = 0.5;
  }
  CHECK(day_pattern(farm, north, model::UnitSystem::Us) ==
        "north in Aug: works in the morning, short from 1 pm: down to 50 % of what stock want by 1 "
        "pm; enough again from 6 pm.");
  CHECK(clock_words(0, model::UnitSystem::Us) == "midnight");
  CHECK(clock_words(12, model::UnitSystem::Us) == "noon");
  CHECK(clock_words(11, model::UnitSystem::Us) == "11 am");
}

TEST_CASE("steps are said as people say them") {
  CHECK(step_words(3600.0) == "1 h");
  CHECK(step_words(900.0) == "15 min");
  CHECK(step_words(86400.0) == "1 day");
  CHECK(step_words(7.0 * 86400.0) == "7 days");
  CHECK(step_words(5400.0) == "90 min");
}

TEST_CASE("volumes take the unit they read best in") {
  CHECK(volume_scale(2.0, model::UnitSystem::Metric).unit == "L");
  CHECK(volume_scale(200.0, model::UnitSystem::Metric).unit == "m3");
  CHECK(volume_scale(2.0, model::UnitSystem::Us).unit == "gal");
  CHECK(volume_scale(2000.0, model::UnitSystem::Us).unit == "1000 gal");
  // 1 m3 is 264.172 US gal (NIST Handbook 44, appendix C).
  CHECK(volume_text(1.0, volume_scale(1.0, model::UnitSystem::Us)) == "264");
}

}  // namespace leat::render
