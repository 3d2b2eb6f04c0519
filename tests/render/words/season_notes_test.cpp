// What a season took for granted, in words.
#include "render/words/season_notes.h"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

namespace leat::render {

namespace {

constexpr auto metric = model::UnitSystem::Metric;
constexpr auto us = model::UnitSystem::Us;

std::string text(const solver::SeasonNote& note, model::UnitSystem units = metric) {
  return season_note_text(note, units);
}

std::array<bool, 12> months(const std::vector<std::size_t>& numbers) {
  std::array<bool, 12> marked{};
  for (const std::size_t number : numbers) {
    marked.at(number - 1) = true;
  }
  return marked;
}

}  // namespace

TEST_CASE("months that follow each other are drawn together") {
  const solver::SeriesName yield{solver::SeriesKind::Yield, "up", {}};
  CHECK(text(solver::MonthsFilled{yield, months({7, 9, 10}), model::GapRule::Lower}) ==
        "Yield of up: nothing given for Jul, Sep and Oct; taken as the lower of the months around "
        "them.");
  CHECK(text(solver::MonthsFilled{
            yield, months({2, 3, 4, 7, 9, 10, 11, 12}), model::GapRule::Straight}) ==
        "Yield of up: nothing given for Feb to Apr, Jul, Sep to Dec; taken as the straight line "
        "between the months given.");
  CHECK(text(solver::MonthsFilled{
            {solver::SeriesKind::Heads, "low", "goat"}, months({1}), model::GapRule::Higher}) ==
        "Heads of goat at low: nothing given for Jan; taken as the higher of the months around "
        "them.");
}

TEST_CASE("a record is told where it ends and where it has a gap") {
  const solver::SeriesName surface{solver::SeriesKind::Surface, "ford", {}};
  CHECK(text(solver::BeyondRecord{surface, {2026, 1, 5}, {2026, 7, 5}, model::GapRule::Lower}) ==
        "Surface of ford: measured from 2026-01-05 to 2026-07-05; outside these dates each month "
        "takes the lowest of what was measured in it.");
  CHECK(text(solver::RecordGap{surface, {2026, 1, 5}, {2026, 7, 5}}) ==
        "Surface of ford: nothing measured between 2026-01-05 and 2026-07-05; taken as the "
        "straight line between the two.");
}

TEST_CASE("days are counted where not every day is meant") {
  CHECK(text(solver::RainUntold{{1, 9}}) ==
        "Rain: on 1 of 9 days nothing tells of it; none is counted.");
  CHECK(text(solver::RainUntold{{9, 9}}) == "Rain: nothing tells of it; none is counted.");
  CHECK(text(solver::WeatherBridged{{1, 9}, 14}) ==
        "Weather: on 1 of 9 days what was not measured is taken as the straight line between the "
        "days around it (gaps of at most 14 days).");
  CHECK(text(solver::WarmthUntold{{184, 184}}) ==
        "What stock drink: no air temperature is known; a summer day's amount is taken.");
  CHECK(text(solver::StormsByMonth{{184, 184}})
            .find("Runoff: the month's rain falls in equal "
                  "rains") == 0);
  CHECK(text(solver::RunoffUncounted{{184, 184}}).find("add 'rain days' by month") !=
        std::string::npos);
}

TEST_CASE("evaporation is told by its method") {
  CHECK(text(solver::EvaporationLeftOut{false})
            .find("Evaporation is left out: give weather the evaporation of a pan") == 0);
  CHECK(text(solver::EvaporationLeftOut{true}).find("it needs the site's latitude") !=
        std::string::npos);
  CHECK(text(solver::EvaporationReckoned{{0, 0, 9, 0}, 9, 0.7}) ==
        "Evaporation of ponds is 1.05 times the reference of Hargreaves (FAO-56 equation 52), from "
        "temperatures and latitude alone.");
  CHECK(text(solver::EvaporationReckoned{{8, 0, 0, 1}, 9, 0.7}) ==
        "Evaporation of ponds is on 8 days what the pan loses times 0.7; on 1 day left out, as "
        "nothing tells of it.");
}

TEST_CASE("what a pond loses through its bed is told in the units asked for") {
  const solver::SeepageOfSoil clay{"dug", "clay", 3.5355, 1.25, 10.0};
  CHECK(text(clay) ==
        "Seepage of dug: 3.54 mm a day, the middle of what clay lets through (1.25 mm to 10 mm); "
        "the true one may lie anywhere between.");
  CHECK(text(clay, us).find("Seepage of dug: 0.139 in a day") == 0);
  CHECK(text(solver::BedLoses{"dug", 0.060, false}) ==
        "dug: 60 mm a day through its bed is much; a sound pond loses up to 6 mm. Have the bed "
        "looked at before more water is led there.");
  CHECK(text(solver::BedLoses{"dug", 0.120, true})
            .find("dug: 120 mm a day through its bed is a leak") == 0);
  CHECK(text(solver::BedLoses{"dug", 0.127, true}, us).find("dug: 5.0 in a day") == 0);
}

TEST_CASE("the notes of frost speak in the units asked for") {
  solver::FrostNights frost;
  frost.months = {{.year = 2026,
                   .month = model::Month::Dec,
                   .nights = 31,
                   .freezing = 23.2,
                   .usual_night_C = -3.0,
                   .measured = false}};
  frost.coldest = solver::FrostNight{.on = {2026, 12, 1},
                                     .air_C = -12.0,
                                     .water_C = 8.0,
                                     .wind_m_s = 0.0,
                                     .humidity_percent = 80.0,
                                     .measured = false};
  CHECK(text(frost, us).find("Nights below 32 F: Dec about 23 of 31.") == 0);
  CHECK(text(frost, us).find("about 10 F") != std::string::npos);
  CHECK(text(frost).find("Nights below 0 C: Dec about 23 of 31.") == 0);
  CHECK(text(solver::FrostNights{}) == "Hardly a night falls below 0 C.");
  CHECK(text(solver::FrostUntold{}).find("Frost is not reckoned") == 0);
  CHECK(text(solver::FrostAtTroughs{{"low"}, 1.384e-6, 8.0, 0.25}).find("a hole 0.5 m square") !=
        std::string::npos);
  CHECK(text(solver::FrostAtTroughs{{"low"}, std::nullopt, 0.4, 0.25}) ==
        "At low: no inflow keeps a hole open, as the water comes at 0 C.");
  CHECK(text(solver::LowTees{{"t"}}) ==
        "Every pipe leaves t upward: water stays there until it is drained.");
}

}  // namespace leat::render
