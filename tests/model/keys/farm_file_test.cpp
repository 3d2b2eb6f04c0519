#include "model/keys/farm_file.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>

#include <catch2/catch.hpp>

#include "model/keys/farm_checks.h"
#include "model/keys/size_choice.h"
#include "tests/support/farm_problems.h"

namespace {

using namespace leat;
using namespace leat::model;

using namespace std::string_literals;

const std::string farms = std::string(LEAT_SOURCE_DIR) + "/tests/farms/";

std::string text_of(const std::string& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

Farm loaded(const std::string& name) {
  const LoadedFarm result = load_farm_file(farms + name);
  for (const Diagnostic& problem : result.problems) {
    UNSCOPED_INFO(problem.position.line << ": " << problem.text);
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

const Pipe& pipe_of(const Farm& farm, const std::string& name) {
  for (const Pipe& pipe : farm.pipes) {
    if (pipe.name == name) {
      return pipe;
    }
  }
  throw std::runtime_error("no pipe " + name);
}

Approx exactly(double value) {
  return Approx(value).epsilon(1e-12);
}

}  // namespace

TEST_CASE("Alder Hollow: name, units, datum and site are as written") {
  const Farm farm = loaded("alder-hollow.yaml");
  CHECK(farm.name == "Alder Hollow");
  CHECK(farm.show == UnitSystem::Us);
  CHECK(farm.datum.value() == "barn slab corner = 100 ft");
  CHECK(in_feet(farm.site.altitude) == exactly(1350.0));
  CHECK(in_fahrenheit(farm.site.water.at(std::nullopt)) == exactly(55.0));
  CHECK_FALSE(farm.site.water.varies);
  CHECK_FALSE(farm.site.air_pressure.has_value());
  CHECK_FALSE(farm.site.latitude_degrees.has_value());
  CHECK_FALSE(farm.air.has_value());
  CHECK(sizes_to_choose(farm).empty());
}

TEST_CASE("Alder Hollow: places stand in the order of the file with their levels") {
  const Farm farm = loaded("alder-hollow.yaml");
  std::string names;
  for (const Place& place : farm.places) {
    names += std::string(kind_word(place)) + " " + place.name + ", ";
  }
  CHECK(names ==
        "spring upper, creek ford pool, pond house pond, tank hill tank, trough north, "
        "outlet garden, tee gate tee, ");
  const auto& spring = data_of<Spring>(farm, "upper");
  CHECK(in_feet(spring.overflow) == exactly(131.5));
  CHECK(in_feet(spring.intake) == exactly(130.5));
  CHECK_FALSE(spring.intake_assumed);
  const auto& creek = data_of<Creek>(farm, "ford pool");
  CHECK(in_feet(creek.surface.at(std::nullopt)) == exactly(118.0));
  CHECK(in_us_gallons_per_minute(creek.spare->at(std::nullopt)) == exactly(12.0));
  CHECK_FALSE(creek.flow.has_value());
  CHECK(in_feet(data_of<Pond>(farm, "house pond").surface.at(std::nullopt)) == exactly(104.0));
  const auto& tank = data_of<Tank>(farm, "hill tank");
  CHECK(in_feet(tank.floor) == exactly(120.0));
  CHECK(in_feet(tank.full) == exactly(5.0));
  CHECK(in_feet(tank.depth) == exactly(3.0));
  CHECK_FALSE(tank.settles);
  // pi / 4 x (8 ft)^2
  CHECK(in_square_metres(*tank.area) == exactly(50.26548245743669 * 0.3048 * 0.3048));
  const auto& trough = data_of<Trough>(farm, "north");
  CHECK(in_feet(trough.float_level) == exactly(108.0));
  CHECK(in_hours(trough.within) == exactly(6.0));
  CHECK(in_millimetres(*trough.seat) == exactly(6.0));
  CHECK(trough.discharge_coefficient == 0.60);
  CHECK(in_seconds(trough.closes_in) == 5.0);
  const auto& herd = std::get<HerdNeed>(trough.need).herd;
  REQUIRE(herd.size() == 1);
  CHECK(herd[0].animal == "dry beef cow");
  CHECK(herd[0].heads.at(std::nullopt).in_si() == 24.0);
  CHECK(in_feet(data_of<Outlet>(farm, "garden").level) == exactly(110.0));
  CHECK(in_feet(data_of<Tee>(farm, "gate tee").elevation) == exactly(112.0));
}

TEST_CASE("Alder Hollow: months not given take the lower of their neighbours, and a note says so") {
  const Farm farm = loaded("alder-hollow.yaml");
  const auto& yield = data_of<Spring>(farm, "upper").yield;
  CHECK(yield.varies);
  const double expected[12] = {4.0, 4.0, 4.0, 9.0, 2.5, 2.5, 2.5, 0.9, 0.9, 0.9, 4.0, 4.0};
  for (std::size_t month = 0; month < 12; ++month) {
    CAPTURE(month);
    CHECK(in_us_gallons_per_minute(yield.by_month[month]) == exactly(expected[month]));
  }
  CHECK_FALSE(yield.assumed_at(Month::Apr));
  CHECK(yield.assumed_at(Month::May));
  REQUIRE(farm.notes.size() == 2);
  CHECK(farm.notes[0] ==
        "yield of spring 'upper': Jan, Feb, Mar, May, Jun, Sep, Oct, Dec not given, taken as the "
        "lower of the months around them");
  CHECK(farm.notes[1] ==
        "what the herd drinks is taken for a summer day: the file gives no air temperatures");
}

TEST_CASE("Alder Hollow: pipes know their ends, bore, path, length and parts") {
  const Farm farm = loaded("alder-hollow.yaml");
  REQUIRE(farm.pipes.size() == 6);
  const Pipe& main = pipe_of(farm, "main");
  CHECK(farm.places[main.from].name == "upper");
  CHECK(farm.places[main.to].name == "hill tank");
  CHECK(in_inches(main.size.bore) == exactly(1.049));
  REQUIRE(main.path.size() == 4);
  CHECK(in_feet(main.path[2].distance) == exactly(180.0));
  CHECK(in_feet(main.path[2].elevation) == exactly(129.0));
  // Slope length: sqrt(120^2 + 3.5^2) + sqrt(60^2 + 2^2) + sqrt(160^2 + 4^2) ft.
  CHECK(in_feet(main.length) == exactly(120.05103081606585 + 60.03332407921454 + 160.04999218994));
  REQUIRE(main.fittings.size() == 2);
  CHECK(main.fittings[0].name == "strainer");
  CHECK(main.fittings[0].place.where == Placement::Where::Start);
  CHECK(main.fittings[1].name == "elbow");
  CHECK(main.fittings[1].count == 2);
  CHECK(main.fittings[1].place.where == Placement::Where::Spread);
  const Pipe& creek_line = pipe_of(farm, "creek line");
  REQUIRE(creek_line.fittings.size() == 2);
  CHECK(creek_line.fittings[1].name == "hinged foot valve");
  CHECK(creek_line.fittings[1].one_way);
  CHECK(creek_line.fittings[1].lifting_velocity.has_value());
  CHECK(creek_line.fittings[1].place.where == Placement::Where::Start);
  const Pipe& to_pond = pipe_of(farm, "to pond");
  CHECK(in_feet(*to_pond.ends) == exactly(106.0));
  CHECK(to_pond.valve->type == ValveType::Gate);
  CHECK(to_pond.valve->open == 0.375);
  CHECK_FALSE(to_pond.valve->shut);
  CHECK(to_pond.valve->place->where == Placement::Where::End);
  CHECK(in_feet(pipe_of(farm, "down").length) == exactly(150.0));
}

TEST_CASE("FORMAT.md shows Alder Hollow as it is tested") {
  const std::string page = text_of(std::string(LEAT_SOURCE_DIR) + "/model/FORMAT.md");
  const std::string farm = text_of(farms + "alder-hollow.yaml");
  CHECK(page.find("```yaml\n# alder-hollow.yaml\n" + farm + "```") != std::string::npos);
}

TEST_CASE("Every key of the format is read, and what solve cannot do yet is named") {
  const Farm farm = loaded("every-key.yaml");
  CHECK(sizes_to_choose(farm) == std::vector<std::string>{"size: choose on pipe 'to west'"});
  CHECK(leat::tests::check_farm(farm).empty());
}

TEST_CASE("Every key: site and weather by month") {
  const Farm farm = loaded("every-key.yaml");
  CHECK(in_metres(farm.site.altitude) == exactly(-12.0));
  CHECK(in_kilopascals(*farm.site.air_pressure) == exactly(101.5));
  CHECK(*farm.site.latitude_degrees == 47.5);
  // Straight line from 4 C in January to 16 C in July and back.
  CHECK(in_celsius(farm.site.water.at(Month::Apr)) == exactly(10.0));
  CHECK(in_celsius(farm.site.water.at(Month::Oct)) == exactly(10.0));
  // Mean of -4 and 2 in January, of 12 and 24 in July.
  CHECK(in_celsius(farm.air->at(Month::Jan)) == exactly(-1.0));
  CHECK(in_celsius(farm.air->at(Month::Jul)) == exactly(18.0));
  CHECK(farm.air->varies);
}

TEST_CASE("Every key: open water") {
  const Farm farm = loaded("every-key.yaml");
  const auto& creek = data_of<Creek>(farm, "ford pool");
  CHECK(in_metres(creek.surface.at(Month::Feb)) == exactly(96.0));
  CHECK(in_metres(creek.surface.at(Month::Apr)) == exactly(95.5));
  CHECK(in_metres(*creek.intake) == exactly(95.2));
  CHECK(in_litres_per_second(creek.flow->at(Month::Aug)) == exactly(1.0));
  CHECK_FALSE(creek.spare->varies);
  CHECK(in_metres(*data_of<Pond>(farm, "house pond").intake) == exactly(79.0));
  CHECK(in_metres(data_of<Spring>(farm, "side").intake) == exactly(98.6));
  CHECK(data_of<Spring>(farm, "side").intake_assumed);
  const auto& hill = data_of<Tank>(farm, "hill tank");
  CHECK(in_metres(*hill.float_inlet) == exactly(1.8));
  CHECK(in_metres(*hill.intake) == exactly(92.1));
  const auto& settling = data_of<Tank>(farm, "break tank");
  CHECK(settling.settles);
  CHECK(in_square_metres(*settling.area) == exactly(3.0));
  CHECK(in_square_metres(*data_of<Tank>(farm, "square tank").area) == exactly(4.0));
  CHECK(in_metres(data_of<Tank>(farm, "square tank").depth) == exactly(1.0));
}

TEST_CASE("Every key: troughs, outlets and tees") {
  const Farm farm = loaded("every-key.yaml");
  const auto& north = data_of<Trough>(farm, "north");
  CHECK(north.discharge_coefficient == 0.62);
  CHECK(in_kilopascals(*north.closes_against) == exactly(400.0));
  CHECK(in_seconds(north.closes_in) == exactly(2.0));
  CHECK(in_litres(*north.holds) == exactly(400.0));
  CHECK(north.enters == TroughEntry::UnderWater);
  const auto& herd = std::get<HerdNeed>(north.need).herd;
  REQUIRE(herd.size() == 2);
  CHECK(herd[1].heads.at(Month::Jul).in_si() == 10.0);
  CHECK(herd[1].heads.at(Month::Oct).in_si() == 4.0);
  const auto& south = data_of<Trough>(farm, "south");
  CHECK(in_litres(std::get<DailyNeed>(south.need).per_day.at(std::nullopt)) == exactly(500.0));
  CHECK(in_litres_per_second(south.passes->first) == exactly(20.0 / 60.0));
  CHECK(in_kilopascals(south.passes->second) == exactly(200.0));
  CHECK(south.enters == TroughEntry::AboveWater);
  const auto& west = data_of<Trough>(farm, "west");
  CHECK(in_litres_per_second(std::get<RateNeed>(west.need).rate.at(Month::Apr)) == exactly(0.05));
  CHECK(std::holds_alternative<NoNeed>(data_of<Trough>(farm, "east").need));
  const auto& garden = data_of<Outlet>(farm, "garden");
  CHECK(in_litres_per_second(garden.wished->at(Month::Jan)) == exactly(10.0 / 60.0));
  CHECK(in_millimetres(*garden.opening) == exactly(9.0));
  CHECK(garden.discharge_coefficient == 0.8);
  CHECK_FALSE(garden.household);
  CHECK(data_of<Tee>(farm, "low tee").leaks);
  CHECK_FALSE(data_of<Tee>(farm, "gate tee").leaks);
}

TEST_CASE("Every key: what sits in and on a pipe") {
  const Farm farm = loaded("every-key.yaml");
  const Pipe& main = pipe_of(farm, "main");
  REQUIRE(main.fittings.size() == 6);
  CHECK(main.fittings[2].name == "45 elbow");
  CHECK(main.fittings[2].count == 1);
  CHECK(main.fittings[3].loss_coefficient == 1.5);
  CHECK(main.fittings[5].name == "tee run");
  CHECK(main.fittings[5].count == 2);
  CHECK(main.fittings[5].place.where == Placement::Where::AtDistance);
  CHECK(in_metres(main.fittings[5].place.distance) == exactly(20.0));
  REQUIRE(main.vents.size() == 2);
  CHECK(in_metres(main.vents[0].distance) == exactly(90.0));
  CHECK_FALSE(main.vents[0].top.has_value());
  CHECK(in_metres(*main.vents[1].top) == exactly(101.0));
  CHECK(main.one_way);
  CHECK(main.enters == TankEntry::Rim);
  CHECK(*main.entrance_k == 0.2);
  CHECK(*main.exit_k == 0.9);
  CHECK(main.lies == Lies::Buried);
  CHECK(in_metres(main.length) == exactly(152.0));
  const Pipe& down = pipe_of(farm, "down");
  CHECK(down.regulator->place.where == Placement::Where::Start);
  CHECK(in_kilopascals(down.regulator->set) == exactly(100.0));
  const Pipe& to_north = pipe_of(farm, "to north");
  CHECK(to_north.valve->type == ValveType::Ball);
  CHECK(to_north.valve->shut);
  const Pipe& to_south = pipe_of(farm, "to south");
  // 3/4 in hose has 19.05 mm: 0.5 (1 - (19.05/26)^2) and (1 - (19.05/32)^2)^2.
  CHECK(to_south.fittings.at(0).loss_coefficient == Approx(0.2316).epsilon(1e-3));
  CHECK(to_south.fittings.at(1).loss_coefficient == Approx(0.4168).epsilon(1e-3));
}

TEST_CASE("Every key: sizes from the catalogue and of one's own") {
  const Farm farm = loaded("every-key.yaml");
  const PipeSize& own = pipe_of(farm, "low").size;
  CHECK(in_millimetres(own.bore) == exactly(26.0));
  CHECK(in_millimetres(own.roughness) == exactly(0.01));
  CHECK(in_millimetres(*own.wall) == exactly(3.0));
  CHECK(in_millimetres(*own.outside_diameter) == exactly(32.0));
  CHECK(in_kilopascals(*own.rating) == exactly(600.0));
  CHECK(in_kilopascals(*own.modulus) == exactly(800000.0));
  CHECK(*own.friction_factor == 0.02);
  CHECK(*pipe_of(farm, "to north").size.hazen_williams_c == 140.0);
  CHECK(pipe_of(farm, "to west").size.choose);
  const PipeSize& rated = pipe_of(farm, "to pond").size;
  CHECK(in_psi(*rated.rating) == exactly(100.0));
  CHECK_FALSE(rated.rating_assumed);
}

TEST_CASE("Every key: a path from a CSV file beside the farm") {
  const Farm farm = loaded("every-key.yaml");
  const Pipe& line = pipe_of(farm, "side line");
  REQUIRE(line.path.size() == 3);
  CHECK(in_metres(line.path[1].distance) == exactly(60.0));
  CHECK(in_metres(line.path[1].elevation) == exactly(90.0));
  CHECK(in_metres(line.length) == Approx(100.924).epsilon(1e-5));
}

TEST_CASE("A spring without an intake is drawn from 0.3 m below its overflow") {
  const LoadedFarm farm = load_farm(
      "farm: T\nsprings: {s: {overflow: 10 m, yield: 3 L/min}}\noutlets: {o: {level: 5 m}}\n"
      "pipes: {p: {from: s, to: o, size: 1 in SIDR 15, length: 60 m}}\n",
      "farm.yaml");
  REQUIRE(farm.farm.has_value());
  CHECK(in_metres(data_of<Spring>(*farm.farm, "s").intake) == exactly(9.7));
}

TEST_CASE("A valve at a pipe without a summit needs no place, one at a knee does") {
  const auto code = [](const std::string& path) {
    const LoadedFarm farm = load_farm(
        "farm: T\nponds: {a: {surface: 10 m}, b: {surface: 2 m}}\npipes: {p: {from: a, to: b, "
        "size: 1 in SIDR 15, valve: {type: gate, open: 1/2}, path: " +
            path + "}}\n",
        "farm.yaml");
    return farm.problems.empty() ? std::string() : farm.problems.front().code;
  };
  CHECK(code("[[0 m, 9 m], [50 m, 6 m], [100 m, 3 m]]").empty());
  CHECK(code("[[0 m, 9 m], [50 m, 4 m], [100 m, 3 m]]").empty());
  CHECK(code("[[0 m, 9 m], [50 m, 8 m], [100 m, 3 m]]") == "valve-needs-place");
}

TEST_CASE("A file that is not there is a problem like any other") {
  const LoadedFarm farm = load_farm_file(farms + "no such farm.yaml");
  CHECK_FALSE(farm.farm.has_value());
  REQUIRE(farm.problems.size() == 1);
  CHECK(farm.problems[0].code == "unreadable");
  CHECK(load_farm_file(farms).problems.at(0).code == "unreadable");
}

TEST_CASE("Whatever bytes change in a farm file, it loads or tells why") {
  const std::string good = text_of(farms + "alder-hollow.yaml");
  std::mt19937 random(20260814);
  const auto below = [&random](std::size_t count) {
    return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
  };
  const std::string hostile = "{}[]:,#-?&*!|>'\"%@`\t\n\r \x80\xff\0~<=0"s;
  int refused = 0;
  for (int round = 0; round < 3000; ++round) {
    std::string text = good;
    for (std::size_t change = 0; change <= below(4); ++change) {
      const std::size_t at = below(text.size());
      switch (below(4)) {
        case 0:
          text[at] = hostile[below(hostile.size())];
          break;
        case 1:
          text.erase(at, below(40));
          break;
        case 2:
          text.insert(at, text.substr(below(text.size()), below(60)));
          break;
        default:
          text.insert(at, 1, hostile[below(hostile.size())]);
      }
    }
    const LoadedFarm farm = load_farm(text, "changed.yaml");
    CAPTURE(text);
    REQUIRE(farm.farm.has_value() != leat::tests::has_error(farm.problems));
    refused += farm.farm.has_value() ? 0 : 1;
  }
  CHECK(refused > 1000);
}
