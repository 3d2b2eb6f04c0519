// Keys that few farms write: needs a day by month, the shape of a pond, the pump's curve, what was
// measured. What is well written is taken, what is not is told at its place.
#include <algorithm>
#include <string>
#include <variant>

#include <catch2/catch.hpp>

#include "model/keys/farm_file.h"

namespace leat::model {
namespace {

/// A spring that feeds a trough; the trough's keys, and lines of more sections.
std::string farm_text(const std::string& trough, const std::string& more = "") {
  return "farm: Sedge Bottom\n"
         "springs: {seep: {overflow: 20 m, yield: 5 L/min}}\n"
         "troughs: {north: {float: 10 m" +
         trough +
         "}}\n"
         "pipes: {line: {from: seep, to: north, size: \"1 in SIDR 15, 100 psi\", length: 100 "
         "m}}\n" +
         more;
}

LoadedFarm load(const std::string& text) {
  return load_farm(text, "sedge.yaml");
}

std::string told(const LoadedFarm& loaded) {
  std::string all;
  for (const Diagnostic& problem : loaded.problems) {
    all += problem.code + " " + std::to_string(problem.position.line) + ": " + problem.text + "\n";
  }
  return all;
}

const Trough& trough_of(const Farm& farm) {
  return std::get<Trough>(
      std::find_if(farm.places.begin(), farm.places.end(), [](const Place& place) {
        return place.name == "north";
      })->data);
}

TEST_CASE("a need a day that changes with the month is that month's amount") {
  const LoadedFarm loaded = load(farm_text(", need: {Jan: 240 L/day, Jul: 480 L/day}"));
  INFO(told(loaded));
  REQUIRE(loaded.farm);
  const Need& need = trough_of(*loaded.farm).need;
  REQUIRE(std::holds_alternative<DailyNeed>(need));
  const MonthSeries<Volume>& per_day = std::get<DailyNeed>(need).per_day;
  CHECK(per_day.varies);
  CHECK(in_litres(per_day.at(Month::Jan)) == Approx(240.0).epsilon(1e-12));
  CHECK(in_litres(per_day.at(Month::Jul)) == Approx(480.0).epsilon(1e-12));
  // A month not given takes the higher of its neighbours.
  CHECK(in_litres(per_day.at(Month::Apr)) == Approx(480.0).epsilon(1e-12));
}

TEST_CASE("a need that cannot be read is told and nothing is made of it") {
  const LoadedFarm loaded = load(farm_text(", need: plenty"));
  CHECK_FALSE(loaded.farm);
  REQUIRE(loaded.problems.size() == 1);
  CHECK(loaded.problems[0].position.line == 3);
}

struct FaultRow {
  std::string line;
  std::string code;
  std::string words;
};

TEST_CASE("a pond, a pump or a reading that is not written as it should be is told in its line") {
  const auto row = GENERATE(values<FaultRow>({
      {"ponds: {pool: {surface: 9 m, shape: [3 m]}}", "wrong-shape", "pair [level, area]"},
      {"ponds: {pool: {surface: 9 m, shape: {top: wide, depth: 2 m}}}", "wrong-shape", "'wide'"},
      {"ponds: {pool: {surface: 9 m, shape: {top: 20 m x 10 m, sides: steep, depth: 2 m}}}",
       "wrong-shape",
       "'steep'"},
      {"ponds: {pool: {surface: 9 m, map: here}}", "wrong-shape", "pair [longitude, latitude]"},
      {"measured: {at: seep, flow: 1 L/min}", "wrong-shape", "measured"},
  }));
  const LoadedFarm loaded = load(farm_text("", row.line + "\n"));
  CAPTURE(row.line, told(loaded));
  CHECK_FALSE(loaded.farm);
  const bool found = std::any_of(
      loaded.problems.begin(), loaded.problems.end(), [&row](const Diagnostic& problem) {
        return problem.code == row.code && problem.position.line == 5 &&
               (problem.text + problem.hint).find(row.words) != std::string::npos;
      });
  CHECK(found);
}

TEST_CASE("a reading taken several times is taken as a list of readings") {
  const LoadedFarm good =
      load(farm_text("", "measured:\n  - {at: seep, flow: [1 gal in 16 s, 1 gal in 17 s]}\n"));
  INFO(told(good));
  CHECK(good.farm);
  const LoadedFarm bad =
      load(farm_text("", "measured:\n  - {at: seep, flow: [1 gal in 16 s, 1 gal]}\n"));
  CHECK_FALSE(bad.farm);
  REQUIRE(bad.problems.size() == 1);
  CHECK(bad.problems[0].position.line == 6);
}

TEST_CASE("a loss coefficient or a bore no pipe can have is told with what it must be") {
  const auto row = GENERATE(values<FaultRow>({
      {"k many", "not-a-number", "many"},
      {"contraction from 9 km", "out-of-range", "9 km"},
  }));
  std::string text = farm_text("");
  text.replace(text.find("length: 100 m"), 13, "length: 100 m, fittings: [" + row.line + "]");
  const LoadedFarm loaded = load(text);
  CAPTURE(row.line, told(loaded));
  CHECK_FALSE(loaded.farm);
  REQUIRE(loaded.problems.size() == 1);
  CHECK(loaded.problems[0].code == row.code);
  CHECK(loaded.problems[0].position.line == 4);
  CHECK(loaded.problems[0].text.find(row.words) != std::string::npos);
}

}  // namespace
}  // namespace leat::model
